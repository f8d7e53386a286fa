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
import { checkToJson, type ToolFound } from './check-to-json.ts'
import { usageFault } from './fault.ts'
import { parsePrinter } from './parse-printer.ts'
import { taken } from './parse-reel.ts'
import { plainReelText, reelsOfTools } from './reels-of-tools.ts'
import { run } from './run.ts'
import { isCutShort, whatIsDrawn } from './what-is-drawn.ts'

/** Exit code of each call. */
const exitOf: Readonly<Record<Verdict, number>> = { enough: 0, close: 10, short: 20 }

/** `reelreckon check`: will this reel finish this print? */
export const checkCommand = (file: string | undefined, typed: CheckText): Promise<void> =>
  run(typed.json === true, async (terminal) => {
    const confidence = parseConfidence(typed.confidence)
    const { printer, assumed } = parsePrinter(typed)
    const plain = plainReelText(typed)
    const drawn = await whatIsDrawn(file, typed)
    const { layers } = drawn
    const reels = reelsOfTools(
      drawn.tools.map(({ tool }) => tool),
      plain,
      typed.tool ?? [],
    )
    const common = { printer, ...(layers && { layers }), ...(confidence && { confidence }) }
    const inputs: ToolInput[] = []
    for (const [place, { tool, belief }] of reels.entries()) {
      inputs.push({ tool, belief, draw: drawn.tools[place]!.draw, ...common })
    }
    const judged = judgePrint(inputs)
    // Of a file cut short nobody can say that a reel is enough for it.
    const whole: PrintVerdict =
      judged.verdict === 'enough' && isCutShort(drawn) ? { ...judged, verdict: 'close' } : judged
    const next = nextMeasuresOfPrint(inputs)
    const tools = inputs.map(
      (input, place): ToolFound => ({
        tool: input.tool,
        belief: input.belief,
        verdict: whole.tools[place]!,
        next: next[place]!,
        assumed: [...input.belief.assumed, ...assumed],
      }),
    )
    const text =
      typed.json === true
        ? `${JSON.stringify(checkToJson(whole, tools, drawn), null, 2)}\n`
        : checkReport(terminal, whole, tools, drawn, printer)
    return { text, exit: exitOf[whole.verdict] }
  })

const parseConfidence = (typed: string | undefined): number | undefined => {
  if (typed === undefined) return undefined
  const { value } = taken(parseShare(typed), '--confidence')
  if (value > 0.5 && value < 1) return value
  throw usageFault(
    'confidence_out_of_range',
    `--confidence: ${typed} is no use for a call. Expected more than 50 % and less than 100 %, as 95%.`,
    '--confidence',
  )
}
