import { type PutRight, type PutRightInput, putRight, recordedToJson } from '../service/index.ts'
import { usageFault } from './fault.ts'
import { withKnownLedger } from './open-ledger.ts'
import { parseFedLength } from './parse-fed-length.ts'
import { parseLabel } from './parse-make.ts'
import { parsePrice } from './parse-price.ts'
import { parseSrgb } from './parse-srgb.ts'
import { parseStop } from './parse-stop.ts'
import { parseExtra, parseWeighing } from './parse-weighing.ts'
import { jsonText, type RecordText, saidOf } from './record-command.ts'
import { recordedReport } from './recorded-report.ts'
import { run } from './run.ts'
import { takeWeighing, weighingLine } from './take-weighing.ts'
import { talkAtTerminal } from './talk.ts'

/** What was typed after `put-right`. */
export interface PutRightText extends RecordText {
  readonly reason?: string
  readonly mass?: string
  readonly extra?: string
  readonly length?: string
  readonly stoppedAt?: string
  readonly reel?: string
  readonly make?: string
  readonly label?: string
  readonly colour?: string
  readonly srgb?: string
  readonly partUsed?: string
  readonly price?: string
  readonly lot?: string
  readonly accept?: boolean
}

/** `reelreckon put-right`: a fact does not hold. */
export const putRightCommand = (fact: string, typed: PutRightText): Promise<void> =>
  run(typed.json === true, (terminal) =>
    withKnownLedger(typed, async (ledger) => {
      const { reason, mass, extra, length, stoppedAt, reel, make } = typed
      if (reason === undefined) {
        throw usageFault(
          'reason_needed',
          "Say why it does not hold, as --reason 'misread the scale'. It stays readable beside the fact.",
          '--reason',
        )
      }
      const input = {
        ...saidOf(ledger, typed),
        fact,
        reason,
        ...(extra !== undefined && { extra_g: parseExtra(extra) }),
        ...(length !== undefined && {
          length_mm: parseFedLength(length, '--length'),
        }),
        ...(stoppedAt !== undefined && parseStop(stoppedAt, '--stopped-at')),
        ...(make !== undefined && { make }),
        ...openingOf(typed),
      }
      const first = {
        weighing: mass === undefined ? { reading_g: 0 } : parseWeighing(mass, {}, '--mass'),
        accept: typed.accept === true,
        ...(reel !== undefined && { reel }),
      }
      const talk = talkAtTerminal(typed.json === true)
      try {
        let isMassTold = mass !== undefined
        const { answer, refused } = await takeWeighing<PutRight>(
          terminal,
          first,
          {},
          ({ weighing, ...next }) => {
            isMassTold ||= weighing !== first.weighing
            const { reading_g: value, u_g: u = 0, lastPlace_g = 0 } = weighing
            return putRight(ledger, {
              ...input,
              ...next,
              ...(isMassTold && { mass_g: { value, u }, lastPlace_g }),
            })
          },
          ({ weighed }) => weighed,
          `reelreckon put-right ${fact} …`,
          talk,
        )
        const { recorded, weighed } = answer
        if (typed.json === true) {
          return { text: jsonText(recordedToJson(recorded, weighed)), exit: refused?.exit ?? 0 }
        }
        if (refused !== undefined || recorded === undefined) return refused!
        const lines = weighed === undefined ? [] : [weighingLine(weighed)]
        return { text: recordedReport(terminal, recorded, lines), exit: 0 }
      } finally {
        talk?.end()
      }
    }),
  )

/** What is right of a reel that arrived. */
const openingOf = ({ label, colour, srgb, partUsed, price, lot }: PutRightText): OpeningTold => {
  if (srgb !== undefined && colour === undefined) {
    throw usageFault(
      'colour_needed',
      '--srgb goes with the name of the colour: give --colour.',
      '--srgb',
    )
  }
  return {
    ...(label !== undefined && { label_net_g: parseLabel(label) }),
    ...(colour !== undefined && {
      colour: { name: colour, ...(srgb !== undefined && { srgb: parseSrgb(srgb, '--srgb') }) },
    }),
    ...(partUsed !== undefined && { part_used: yesOrNo(partUsed) }),
    ...(price !== undefined && { price: parsePrice(price, '--price') }),
    ...(lot !== undefined && { lot }),
  }
}

type OpeningTold = Pick<PutRightInput, 'label_net_g' | 'colour' | 'part_used' | 'price' | 'lot'>

const yesOrNo = (typed: string): boolean => {
  const word = typed.trim().toLowerCase()
  if (word === 'yes' || word === 'no') return word === 'yes'
  throw usageFault(
    'part_used_unknown',
    `--part-used: "${typed}" is neither yes nor no.`,
    '--part-used',
  )
}
