import type { MatchJson, MatchRequest } from '../../contract/index.ts'
import { serverWords } from '../strings/server-words.ts'
import { newFactId } from './new-fact-id.ts'
import { OutOfTouch, ProblemFault } from './problem-fault.ts'
import { problemIn } from './problem-in.ts'

/** How a match is followed. */
export interface Matching {
  /** Told how much of the slate is matched, 0 to 1. */
  readonly onProgress: (done: number) => void
  /**
   * Ends the search: the answer is then the best plan so far. Where the server knows nothing of the search
   * any more what is asked fails as `signal.reason` says.
   */
  readonly signal: AbortSignal
}

/**
 * Asks for a match, and is told on the way how far it is.
 *
 * @see WHATWG HTML, 9.2.6, for the events: here each is one line `event` and one line `data`
 */
export async function askForMatch(
  asked: MatchRequest,
  { onProgress, signal }: Matching,
): Promise<MatchJson> {
  const search = newFactId()
  const hangUp = new AbortController()
  signal.addEventListener('abort', () => void endSearch(search, hangUp, signal.reason))
  let response: Response
  try {
    response = await fetch('/api/matches', {
      method: 'POST',
      body: JSON.stringify({ ...asked, search }),
      headers: { 'content-type': 'application/json', accept: 'text/event-stream' },
      signal: hangUp.signal,
    })
  } catch (error) {
    if (hangUp.signal.aborted) throw error
    throw new OutOfTouch(serverWords.outOfReach)
  }
  if (!response.ok || response.body === null) {
    throw new ProblemFault(problemIn(await response.json().catch(() => null), response.status))
  }
  let held = ''
  const pieces = response.body.pipeThrough(new TextDecoderStream()).getReader()
  for (;;) {
    // oxlint-disable-next-line no-await-in-loop -- events come one after another
    const { done, value = '' } = await pieces.read()
    const events = (held + value).split('\n\n')
    held = events.pop() ?? ''
    for (const { name, data } of events.map(eventIn)) {
      if (name === 'progress') onProgress((data as { readonly done: number }).done)
      if (name === 'answer') return data as MatchJson
      if (name === 'problem') throw new ProblemFault(problemIn(data, 500))
    }
    if (done) throw new OutOfTouch(serverWords.endedEarly)
  }
}

const endSearch = async (
  search: string,
  hangUp: AbortController,
  reason: unknown,
): Promise<void> => {
  const ended = await fetch(`/api/matches/${search}`, { method: 'DELETE' }).catch(() => null)
  if (ended?.ok !== true) hangUp.abort(reason)
}

const eventIn = (text: string): { readonly name: string; readonly data: unknown } => {
  const lines = text.split('\n')
  const of = (field: string): string =>
    lines.find((line) => line.startsWith(`${field}: `))?.slice(field.length + 2) ?? ''
  const data = of('data')
  return { name: of('event'), data: data === '' ? null : JSON.parse(data) }
}
