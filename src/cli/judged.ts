import { type Pace, unknownPace } from '../estimate/index.ts'
import { checkToJson } from '../service/index.ts'
import { parseShare } from '../units/index.ts'
import {
  judgePrint,
  nextMeasuresOfPrint,
  type PrintVerdict,
  type ToolInput,
  type Verdict,
} from '../verdict/index.ts'
import { checkReport } from './check-report.ts'
import type { CheckText } from './check-text.ts'
import { usageFault } from './fault.ts'
import type { PrinterTold } from './parse-printer.ts'
import { taken } from './parse-reel.ts'
import { printToJson } from './print-to-json.ts'
import type { ToolReel } from './reels-of-tools.ts'
import type { Result } from './run.ts'
import type { Terminal } from './terminal.ts'
import { timesOf } from './times-of.ts'
import type { ToolFound } from './tool-found.ts'
import { type Drawn, isCutShort } from './what-is-drawn.ts'

/** Exit code of each call. */
export const exitOf: Readonly<Record<Verdict, number>> = { enough: 0, close: 10, short: 20 }

export const toolsOf = (drawn: Drawn): readonly number[] => drawn.tools.map(({ tool }) => tool)

/**
 * The verdict on one reel for each tool, as a sheet or as JSON.
 *
 * @param pace - of a printer whose prints were timed
 */
export const judged = (
  terminal: Terminal,
  typed: CheckText,
  drawn: Drawn,
  reels: readonly ToolReel[],
  { printer, assumed }: PrinterTold,
  confidence: number | undefined,
  pace: Pace = unknownPace(),
): Result => {
  const { layers } = drawn
  const common = { printer, ...(layers && { layers }), ...(confidence && { confidence }) }
  const inputs: ToolInput[] = []
  for (const [place, { tool, belief }] of reels.entries()) {
    inputs.push({ tool, belief, draw: drawn.tools[place]!.draw, ...common })
  }
  const verdict = judgePrint(inputs)
  // Of a file cut short nobody can say that a reel is enough for it.
  const whole: PrintVerdict =
    verdict.verdict === 'enough' && isCutShort(drawn) ? { ...verdict, verdict: 'close' } : verdict
  const next = nextMeasuresOfPrint(inputs)
  const tools: ToolFound[] = []
  for (const [place, { tool, belief }] of inputs.entries()) {
    const { onShelf } = reels[place]!
    tools.push({
      tool,
      belief,
      verdict: whole.tools[place]!,
      next: next[place]!,
      assumed: belief.assumed.concat(assumed),
      ...(onShelf && { onShelf }),
    })
  }
  const times = timesOf(drawn, pace, typed.start, Date.now())
  const text =
    typed.json === true
      ? `${JSON.stringify(checkToJson(whole, tools, { print: printToJson(drawn), findings: drawn.findings, ...(times && { times }) }), null, 2)}\n`
      : checkReport(terminal, whole, tools, drawn, printer, times)
  return { text, exit: exitOf[whole.verdict] }
}

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
