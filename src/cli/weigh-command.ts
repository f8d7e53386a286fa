import { recordedToJson, weigh } from '../service/index.ts'
import { usageFault } from './fault.ts'
import { type OpenLedger, withKnownLedger } from './open-ledger.ts'
import { parseLabel } from './parse-make.ts'
import { parseWeighing } from './parse-weighing.ts'
import { jsonText, type RecordText, saidOf } from './record-command.ts'
import { recordedReport } from './recorded-report.ts'
import { type Result, run } from './run.ts'
import { contradictedLines, scaleLines, takeWeighing, weighingLine } from './take-weighing.ts'
import { type Talk, talkAtTerminal } from './talk.ts'
import type { Terminal } from './terminal.ts'

/** What was typed after `weigh`. */
export interface WeighText extends RecordText {
  readonly scale?: string
  readonly extra?: string
  readonly make?: string
  readonly empty?: boolean
  readonly another?: boolean
  readonly label?: string
  readonly accept?: boolean
}

/** `reelreckon weigh`: a reel, or an empty carrier, stood on a scale. */
export const weighCommand = (words: readonly string[], typed: WeighText): Promise<void> =>
  run(typed.json === true, (terminal) =>
    withKnownLedger(typed, async (ledger) => {
      const talk = talkAtTerminal(typed.json === true)
      try {
        return await weighing(terminal, ledger, words, typed, talk)
      } finally {
        talk?.end()
      }
    }),
  )

/** The same with somebody to talk to handed in. */
export const weighing = async (
  terminal: Terminal,
  ledger: OpenLedger,
  words: readonly string[],
  typed: WeighText,
  talk: Talk | undefined,
): Promise<Result> => {
  const { make } = typed
  const [reel, ...figure] = make === undefined ? words : [undefined, ...words]
  // Whoever leaves a blank before the unit, or writes 2 lb 3 oz, means one figure.
  const mass = figure.join(' ')
  if (mass === '') {
    throw usageFault(
      'nothing_weighed',
      make === undefined
        ? 'Say which reel stood on the scale and what it showed, as: reelreckon weigh K7RMY 422g. An empty carrier: weigh K7RMY 212g --empty.'
        : "Say what the empty carrier weighs, as: reelreckon weigh --make 'Kittiwake PLA' --empty 212g.",
    )
  }
  if (make !== undefined && typed.empty !== true) {
    throw usageFault(
      'make_not_weighed',
      '--make goes with --empty: what is weighed of a make is an empty carrier. Name the reel by its id otherwise.',
      '--make',
    )
  }
  if (typed.another === true && (reel === undefined || typed.empty !== true)) {
    throw usageFault(
      'another_of_reel',
      '--another goes with a reel and --empty: it says that the empty carrier was not its own but another like it.',
      '--another',
    )
  }
  if (typed.label !== undefined && make === undefined) {
    throw usageFault(
      'label_of_reel',
      '--label goes with --make: it says what an empty carrier of the make held. That of a reel is known by its id; leave --label out.',
      '--label',
    )
  }
  const first = {
    weighing: parseWeighing(mass, typed, 'MASS'),
    accept: typed.accept === true,
    ...(reel !== undefined && { reel }),
  }
  const common = {
    ...saidOf(ledger, typed),
    ...(typed.empty === true && { empty: true }),
    ...(typed.another === true && { another: true }),
    ...(make !== undefined && { make }),
    ...(typed.label !== undefined && { label_net_g: parseLabel(typed.label) }),
  }
  const { answer, refused } = await takeWeighing(
    terminal,
    first,
    typed,
    (next) => weigh(ledger, { ...common, ...next }),
    (weighed) => weighed,
    commandOf(reel === undefined ? [mass] : [reel, mass], typed),
    talk,
  )
  if (typed.json === true) {
    return { text: jsonText(recordedToJson(answer.recorded, answer)), exit: refused?.exit ?? 0 }
  }
  if (refused !== undefined || answer.recorded === undefined) return refused!
  const lines = [weighingLine(answer), ...scaleLines(answer), ...contradictedLines(answer)]
  return { text: recordedReport(terminal, answer.recorded, lines), exit: 0 }
}

/** What goes without saying when it is repeated. */
const notRepeated = new Set(['accept', 'json'])

const quoted = (word: string): string =>
  /^[\w.,:/±+-]+$/.test(word) ? word : `'${word.replaceAll("'", `'\\''`)}'`

/** As it was typed, with all that was said beside. */
const commandOf = (words: readonly string[], typed: WeighText): string =>
  [
    'reelreckon weigh',
    ...words.map(quoted),
    ...Object.entries(typed).flatMap(([option, said]: [string, unknown]) => {
      if (notRepeated.has(option) || (said !== true && typeof said !== 'string')) return []
      return said === true ? [`--${option}`] : [`--${option}`, quoted(said)]
    }),
  ].join(' ')
