import type { Acceptance, Weighed, WeighingTold } from '../service/index.ts'
import { grams, measured, type Outcome } from '../units/index.ts'
import { contradictionSentence } from './contradiction-sentence.ts'
import { exitCode } from './fault.ts'
import { answered } from './open-ledger.ts'
import { parseWeighing, type WeighingText } from './parse-weighing.ts'
import { type SheetLine } from './recorded-report.ts'
import type { Result } from './run.ts'
import { sayMass, upTo } from './say.ts'
import { settleSurprise } from './settle-surprise.ts'
import { afterSurprise, sayOff, surpriseReport } from './surprise-report.ts'
import type { Talk } from './talk.ts'
import type { Terminal } from './terminal.ts'

/** What may change between one try and the next. */
export interface Try {
  readonly weighing: WeighingTold
  readonly reel?: string
  readonly accept: Acceptance
}

/** What came of a weighing in the end. */
export interface Taken<T> {
  readonly answer: T
  /** Absent where it was recorded: the sheet of a weighing that was not taken. */
  readonly refused?: Result
}

/**
 * Tries to record a weighing; where it surprises, asks at the terminal until it is settled.
 *
 * @param attempt - the use case, tried again with what the person corrected
 * @param weighedOf - the tested weighing in its answer
 * @param command - as it was typed, without the figures, to say how to repeat it
 * @throws Fault where the use case refuses
 */
export const takeWeighing = async <T>(
  terminal: Terminal,
  first: Try,
  text: WeighingText,
  attempt: (next: Try) => Promise<Outcome<T>>,
  weighedOf: (answer: T) => Weighed | undefined,
  command: string,
  talk: Talk | undefined,
): Promise<Taken<T>> => {
  let next = first
  for (;;) {
    // oxlint-disable-next-line no-await-in-loop -- a try waits for what is said to the one before
    const answer = answered(await attempt(next))
    const weighed = weighedOf(answer)
    if (weighed === undefined || weighed.recorded !== undefined) return { answer }
    const sheet = surpriseReport(terminal, weighed)
    if (talk === undefined) {
      return {
        answer,
        refused: { text: sheet + afterSurprise(command), exit: exitCode.surprising },
      }
    }
    talk.say(sheet)
    // oxlint-disable-next-line no-await-in-loop -- as above
    const said = await settleSurprise(talk)
    switch (said.kind) {
      case 'drop':
        return {
          answer,
          refused: { text: 'Dropped: nothing was recorded.\n', exit: exitCode.surprising },
        }
      case 'accept':
        // Another surprise than the one shown is asked about again.
        next = Object.assign({}, next, { accept: weighed.surprise })
        break
      case 'reel':
        next = Object.assign({}, next, { reel: said.id })
        break
      case 'mass':
        next = Object.assign({}, next, { weighing: parseWeighing(said.typed, text, 'MASS') })
    }
  }
}

/** How a weighing that was taken lies to what was expected. */
export const weighingLine = (weighed: Weighed): SheetLine => {
  const { surprise } = weighed
  const expected = `${sayMass(measured(grams(surprise.predicted.value), surprise.predicted.u))} was expected`
  if (surprise.surprising) return ['weighed', `${expected}; ${sayOff(weighed)}, accepted`]
  return [
    'weighed',
    `${expected}: agrees (${upTo(Math.abs(surprise.off), 1)} standard deviations off)`,
  ]
}

/** Which earlier weighings it brought to light as wrong. */
export const contradictedLines = ({ contradicted, fact }: Weighed): readonly SheetLine[] =>
  contradicted.map((each) => ['note', contradictionSentence(each, fact.reel ?? '')])

/** What is to be known of the scale, where the weighing set it up. */
export const scaleLines = ({ scale }: Weighed): readonly SheetLine[] =>
  scale.isNew
    ? [
        [
          'scale',
          `taken for an unchecked kitchen scale (steps of ${upTo(scale.scale.step_g, 3)} g); change it with: reelreckon scale change '${scale.scale.name}' --step …`,
        ],
      ]
    : []
