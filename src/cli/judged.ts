import type { CheckJson } from '../contract/index.ts'
import { unknownPace } from '../estimate/index.ts'
import {
  checkToJson,
  judgeReels as judge,
  type PrinterJudged,
  type PrinterTold,
  type PrintTimes,
} from '../service/index.ts'
import { parseShare } from '../units/index.ts'
import type { PrintVerdict, Verdict } from '../verdict/index.ts'
import { usageFault } from './fault.ts'
import { printToJson } from './print-to-json.ts'
import type { ToolReel } from './reels-of-tools.ts'
import { taken } from './taken.ts'
import { type Timing, timesOf } from './times-of.ts'
import type { ToolFound } from './tool-found.ts'
import { type Drawn, doubtOfFile } from './what-is-drawn.ts'

/** Exit code of each call. */
export const exitOf: Readonly<Record<Verdict, number>> = { enough: 0, close: 10, short: 20 }

export const toolsOf = (drawn: Drawn): readonly number[] => drawn.tools.map(({ tool }) => tool)

/** The verdict on a print, and all that was found out on the way. */
export interface ReelsJudged {
  readonly drawn: Drawn
  readonly whole: PrintVerdict
  readonly tools: readonly ToolFound[]
  readonly printer: PrinterTold['printer']
  /** Where it is a printer of the shelf. */
  readonly ofShelf?: PrinterJudged
  /** Where a file was read. */
  readonly times?: PrintTimes
}

/** The verdict on one reel for each tool. */
export const judgeReels = (
  drawn: Drawn,
  reels: readonly ToolReel[],
  { printer, assumed, assumedOfTold = [] }: PrinterTold,
  confidence: number | undefined,
  timing: Timing = { pace: unknownPace() },
): ReelsJudged => {
  const { layers } = drawn
  const served = reels.map((reel, place) => ({ ...reel, draw: drawn.tools[place]!.draw }))
  const { whole, tools } = judge(served, {
    printer,
    assumed,
    assumedOfTold,
    ...(layers && { layers }),
    ...(confidence !== undefined && { confidence }),
    inDoubt: doubtOfFile(drawn) !== undefined,
    ...(drawn.prints !== undefined && { prints: drawn.prints }),
  })
  const times = timesOf(drawn, timing)
  return { drawn, whole, tools, printer, ...(times && { times }) }
}

/** The verdict on the wire. */
export const judgedToJson = ({
  drawn,
  whole,
  tools,
  times,
  ofShelf = {},
}: ReelsJudged): CheckJson =>
  checkToJson(whole, tools, {
    printer: ofShelf,
    print: printToJson(drawn),
    findings: drawn.findings,
    ...(times && { times }),
  })

/** c as typed. @throws Fault */
export const parseConfidence = (typed: string | undefined): number | undefined => {
  if (typed === undefined) return undefined
  const { value } = taken(parseShare(typed), '--confidence')
  if (value > 0.5 && value < 1) return value
  throw usageFault(
    'confidence_out_of_range',
    `--confidence: ${typed} is no use for a call. Expected more than 50 % and less than 100 %, as 95%.`,
    '--confidence',
  )
}
