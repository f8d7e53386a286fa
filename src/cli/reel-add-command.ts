import { addReel, type NewReel, type ReelsAdded, recordedToJson } from '../service/index.ts'
import { bigLetters } from './big-letters.ts'
import { usageFault } from './fault.ts'
import { type OpenLedger, withLedger } from './open-ledger.ts'
import { type MakeText, parseMake } from './parse-make.ts'
import { parsePrice } from './parse-price.ts'
import { parseSrgb } from './parse-srgb.ts'
import { parseWeighing } from './parse-weighing.ts'
import { jsonText, type RecordText, saidOf } from './record-command.ts'
import { recordedReport } from './recorded-report.ts'
import { type Result, run } from './run.ts'
import { scaleLines, takeWeighing, weighingLine } from './take-weighing.ts'
import { type Talk, talkAtTerminal } from './talk.ts'
import type { Terminal } from './terminal.ts'

/** What was typed after `reel add`. */
export interface ReelAddText extends RecordText, MakeText {
  readonly make?: string
  readonly grossNew?: string
  readonly gross?: string
  readonly extra?: string
  readonly scale?: string
  readonly partUsed?: boolean
  readonly price?: string
  readonly colour?: string
  readonly srgb?: string
  readonly lot?: string
  readonly place?: string
  readonly count?: string
  readonly accept?: boolean
}

/** `reelreckon reel add`: a reel arrives. */
export const reelAddCommand = (typed: ReelAddText): Promise<void> =>
  run(typed.json === true, (terminal) =>
    withLedger(typed, async (ledger) => {
      const talk = talkAtTerminal(typed.json === true)
      try {
        return await adding(terminal, ledger, typed, talk)
      } finally {
        talk?.end()
      }
    }),
  )

const adding = async (
  terminal: Terminal,
  ledger: OpenLedger,
  typed: ReelAddText,
  talk: Talk | undefined,
): Promise<Result> => {
  const reel = newReel(ledger, typed)
  const { answer, refused } = await takeWeighing<ReelsAdded>(
    terminal,
    {
      weighing: reel.gross ?? reel.grossWhenNew ?? { reading_g: 0 },
      accept: typed.accept === true,
    },
    typed,
    ({ weighing, accept, reel: another }) => {
      if (another !== undefined) {
        throw usageFault(
          'other_reel_weighed',
          `Nothing was recorded. ${another} is on the shelf already: weigh it with reelreckon weigh ${another}, then add the new reel.`,
        )
      }
      const told = reel.gross
        ? { gross: weighing }
        : reel.grossWhenNew && { grossWhenNew: weighing }
      return addReel(ledger, { ...reel, ...told, accept })
    },
    ({ weighed }) => weighed,
    'reelreckon reel add …',
    talk,
  )
  const { recorded, weighed, reels } = answer
  if (typed.json === true) {
    return { text: jsonText(recordedToJson(recorded, weighed)), exit: refused?.exit ?? 0 }
  }
  if (refused !== undefined || recorded === undefined) return refused!
  const lines = weighed === undefined ? [] : [weighingLine(weighed), ...scaleLines(weighed)]
  const [only, ...more] = reels
  const write =
    more.length === 0
      ? `\n${bigLetters(only ?? '')}\n\n  Write it on the reel.\n`
      : '\n  Write each id on its reel.\n'
  return { text: recordedReport(terminal, recorded, lines) + write, exit: 0 }
}

const newReel = (ledger: OpenLedger, typed: ReelAddText): NewReel => {
  const { make, gross, grossNew, partUsed, price, colour, srgb, lot, place, count } = typed
  if (make === undefined) {
    throw usageFault(
      'make_needed',
      "Say of which make the reel is: --make 'Kittiwake PLA'. A new make also needs --maker and --material.",
      '--make',
    )
  }
  if (srgb !== undefined && colour === undefined) {
    throw usageFault(
      'colour_needed',
      '--srgb goes with the name of the colour: give --colour.',
      '--srgb',
    )
  }
  const { extra, ...scaleOnly } = typed
  if (extra !== undefined && gross === undefined && grossNew === undefined) {
    throw usageFault(
      'extra_without_gross',
      '--extra says what stood on the scale beside the reel: give --gross with it.',
      '--extra',
    )
  }
  const { label_net_g, ...parts } = parseMake(typed)
  return {
    ...saidOf(ledger, typed),
    make: {
      name: make,
      ...parts,
      ...(typed.material !== undefined && { material: typed.material }),
    },
    ...(label_net_g !== undefined && { label_net_g }),
    ...(grossNew !== undefined && {
      grossWhenNew: parseWeighing(grossNew, gross === undefined ? typed : scaleOnly, '--gross-new'),
    }),
    ...(gross !== undefined && { gross: parseWeighing(gross, typed, '--gross') }),
    ...(partUsed === true && { partUsed }),
    ...(price !== undefined && { price: parsePrice(price, '--price') }),
    ...(colour !== undefined && {
      colour: { name: colour, ...(srgb !== undefined && { srgb: parseSrgb(srgb, '--srgb') }) },
    }),
    ...(lot !== undefined && { lot }),
    ...(place !== undefined && { place }),
    ...(count !== undefined && { count: parseCount(count) }),
  }
}

const parseCount = (typed: string): number => {
  if (/^[1-9]\d{0,5}$/.test(typed.trim())) return Number(typed)
  throw usageFault(
    'count_malformed',
    `--count: "${typed}" is no count. Write for example 3.`,
    '--count',
  )
}
