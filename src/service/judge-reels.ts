import type { Assumption, ReelBelief } from '../estimate/index.ts'
import type { Layers } from '../print/index.ts'
import {
  type DrawAlternative,
  judgePrint,
  nextMeasuresOfPrint,
  type Printer,
  type PrintVerdict,
} from '../verdict/index.ts'
import type { ToolJudged } from './check-to-json.ts'

/** A tool, what the print asks of it, and what is believed of the reel that serves it. */
export interface ToolServed<S = NonNullable<ToolJudged['onShelf']>> {
  readonly tool: number
  readonly draw: readonly DrawAlternative[]
  readonly belief: ReelBelief
  readonly onShelf?: S
}

/** What holds for every tool. */
export interface JudgedFor {
  readonly printer: Printer
  /** Of the printer, besides what the beliefs say. */
  readonly assumed?: readonly Assumption[]
  /** Of the printer, where the belief of a reel of the shelf says it itself. */
  readonly assumedOfTold?: readonly Assumption[]
  readonly layers?: Layers
  /** c; 0.95 unless given. */
  readonly confidence?: number
  /** Nobody can say that a reel is enough. */
  readonly inDoubt?: boolean
}

/** The verdict on a print, with one reel for each of its tools, and what to measure next. */
export const judgeReels = <S extends NonNullable<ToolJudged['onShelf']>>(
  served: readonly ToolServed<S>[],
  { assumed = [], assumedOfTold = [], ...common }: JudgedFor,
): {
  readonly whole: PrintVerdict
  readonly tools: readonly (ToolJudged & { readonly onShelf?: S })[]
} => {
  const inputs = served.map(({ tool, draw, belief }) => ({ tool, draw, belief, ...common }))
  const whole = judgePrint(inputs)
  const next = nextMeasuresOfPrint(inputs)
  const tools = served.map(({ tool, belief, onShelf }, place) => ({
    tool,
    belief,
    verdict: whole.tools[place]!,
    next: next[place]!,
    assumed: belief.assumed.concat(onShelf ? [] : assumedOfTold, assumed),
    ...(onShelf && { onShelf }),
  }))
  return { whole, tools }
}
