import type { Assumption, ReelBelief } from '../estimate/index.ts'
import type { Layers } from '../print/index.ts'
import { measured, millimetres } from '../units/index.ts'
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
  /** The draw is that of so many prints, and each takes a start; 1 unless given. */
  readonly prints?: number
}

/**
 * What the starts of several prints take, together. All of its spread counts as common to them: that of each
 * start alone would even out, so this is wider.
 */
const startOfAll = ({ printer, prints }: { printer: Printer; prints: number }): Printer => {
  const { value, u } = printer.startAllowance_mm
  return { ...printer, startAllowance_mm: measured(millimetres(prints * value), prints * u) }
}

const beliefOfAll = (belief: ReelBelief, prints: number): ReelBelief => {
  const { nextPrint } = belief
  if (nextPrint === undefined || prints === 1) return belief
  const { terms, constant = 0 } = nextPrint.startAllowance
  const startAllowance = {
    terms: Object.fromEntries(Object.entries(terms).map(([name, by]) => [name, prints * by])),
    constant: prints * constant,
  }
  return { ...belief, nextPrint: { ...nextPrint, startAllowance } }
}

/** The verdict on a print, with one reel for each of its tools, and what to measure next. */
export const judgeReels = <S extends NonNullable<ToolJudged['onShelf']>>(
  served: readonly ToolServed<S>[],
  { assumed = [], assumedOfTold = [], prints = 1, ...more }: JudgedFor,
): {
  readonly whole: PrintVerdict
  readonly tools: readonly (ToolJudged & { readonly onShelf?: S })[]
} => {
  const common = { ...more, printer: startOfAll({ printer: more.printer, prints }) }
  const inputs = served.map(({ tool, draw, belief }) => ({
    tool,
    draw,
    belief: beliefOfAll(belief, prints),
    ...common,
  }))
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
