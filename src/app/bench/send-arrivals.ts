import type { RecordedJson, ReelRequest } from '../../contract/index.ts'
import { OutOfTouch, ProblemFault } from '../api/problem-fault.ts'

/** How far the telling of several arrivals has come. */
export interface ArrivalsTold {
  /** What was answered, in the order of the reels. */
  readonly answers: readonly RecordedJson[]
  /** What was sent last and not heard of: it may be written down. */
  readonly unheard: ReelRequest | null
}

/** Nothing is told yet. */
export const noneTold: ArrivalsTold = { answers: [], unheard: null }

/**
 * Tells of reels one after another: the first sets the make up for the others. Where one is refused, lost
 * or surprises, those before it stay told, and only the rest is sent the next time.
 *
 * @param rest - those without an answer yet, each with an id that it keeps
 * @param onTold - told after every answer, and where none was heard
 * @returns all answers as one; that of one that surprises, and is not written down
 * @throws whatever `send` throws
 */
export async function sendArrivals(
  rest: readonly ReelRequest[],
  { answers: before, unheard }: ArrivalsTold,
  send: (reel: ReelRequest) => Promise<RecordedJson>,
  onTold: (told: ArrivalsTold) => void,
): Promise<RecordedJson> {
  const answers = [...before]
  for (const reel of rest) {
    let answer: RecordedJson
    try {
      // oxlint-disable-next-line no-await-in-loop -- the first sets the make up for the others
      answer = await sendOrHear(reel, unheard, send)
    } catch (error) {
      if (error instanceof OutOfTouch) onTold({ answers: [...answers], unheard: reel })
      throw error
    }
    if (!answer.recorded) return answer
    answers.push(answer)
    onTold({ answers: [...answers], unheard: null })
  }
  return asOne(answers)
}

/** Where the same reel was written down as it was told before it was put right, that is its answer. */
const sendOrHear = async (
  reel: ReelRequest,
  unheard: ReelRequest | null,
  send: (reel: ReelRequest) => Promise<RecordedJson>,
): Promise<RecordedJson> => {
  try {
    return await send(reel)
  } catch (error) {
    const isThere = error instanceof ProblemFault && error.problem.code === 'id_taken'
    if (!isThere || unheard === null || unheard.id !== reel.id) throw error
    return send(unheard)
  }
}

/** All answers as one. */
export const asOne = (answers: readonly RecordedJson[]): RecordedJson => ({
  recorded: true,
  surprise: null,
  facts: answers.flatMap(({ facts }) => facts),
  rows: answers.flatMap(({ rows }) => rows),
  reels: answers.flatMap(({ reels }) => reels),
  contradicted: [],
  notes: [...new Set(answers.flatMap(({ notes }) => notes))],
})
