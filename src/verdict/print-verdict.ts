import { DomainError } from '../units/index.ts'
import {
  callInDoubt,
  callOf,
  confidenceOf,
  judge,
  type ToolVerdict,
  type Verdict,
  type VerdictInput,
} from './verdict.ts'

/** One tool of a print and the reel that serves it. */
export interface ToolInput extends VerdictInput {
  readonly tool: number
}

/** The answer for a print: one verdict a tool, and one for the whole. */
export interface PrintVerdict {
  readonly verdict: Verdict
  /** Chance that every reel lasts, as if the tools had nothing in common. */
  readonly chance: number
  readonly tools: readonly (ToolVerdict & { readonly tool: number })[]
}

/** What the call for a print hangs on, tool by tool. */
export interface ToolChance {
  readonly chance: number
  /** That its reel is not empty; 1 unless given. */
  readonly some?: number
  /** False while something told of this tool's reel contradicts the rest. */
  readonly trusted: boolean
}

/**
 * The call for a print. *Enough* needs the product of the chances, and *short* one reel that is short
 * by itself. A reel whose facts contradict each other gives neither; one that may be empty not *enough*.
 *
 * @param tools - at least one
 * @param confidence - c
 */
export const callOfPrint = (tools: readonly ToolChance[], confidence: number): Verdict => {
  const sureToFail = tools.some(
    ({ chance, trusted }) => trusted && callOf(chance, confidence) === 'short',
  )
  if (sureToFail) return 'short'
  const chance = tools.reduce((product, one) => product * one.chance, 1)
  const some = tools.reduce((product, one) => product * (one.some ?? 1), 1)
  const trusted = tools.every((one) => one.trusted)
  return trusted && callOf(chance, confidence, some) === 'enough' ? 'enough' : 'close'
}

/** The highest confidence asked for holds for the print. @throws DomainError as `confidenceOf` */
export const confidenceOfPrint = (tools: readonly ToolInput[]): number =>
  Math.max(...tools.map(confidenceOf))

/** Whether what one of its tools draws is in doubt, and so the print. */
export const isInDoubt = (tools: readonly ToolInput[]): boolean =>
  tools.some(({ inDoubt }) => inDoubt === true)

/**
 * Whether all reels of a print last.
 *
 * The chance is the product of the tools' chances, which is right when they have nothing in common.
 * A feed factor they share makes it slightly pessimistic: the more the printer feeds, the less margin
 * every one of them has, so their margins are correlated positively and the true chance is higher
 * (Slepian's inequality). A scale and a make in common mostly act the same way, reels of one make more
 * strongly. A firmware family not yet named can move margins against each other, and then the true
 * chance is lower, by no more than Bonferroni's bound allows: `1 − Σ(1 − pᵢ)`, which at chances where *enough* is said lies within
 * (ln c)²/2 of the product. No dependence makes the true chance higher than the lowest of them, so
 * *short* is said by that alone.
 *
 * @param tools - at least one; one reel each; the highest confidence asked for holds for the print
 * @throws DomainError `no_tools`, and as `judge`
 * @see docs/method/verdict.md, "Several tools"
 */
export const judgePrint = (tools: readonly ToolInput[]): PrintVerdict => {
  if (tools.length === 0) throw new DomainError('no_tools', 'a print verdict needs a tool')
  const each = tools.map((input) => ({ tool: input.tool, ...judge(input) }))
  const chance = each.reduce((product, one) => product * one.chance, 1)
  const known = each.map((one) => ({
    chance: one.chance,
    some: one.some,
    trusted: one.contradicting.length === 0,
  }))
  const call = callOfPrint(known, confidenceOfPrint(tools))
  return { verdict: callInDoubt(call, isInDoubt(tools)), chance, tools: each }
}
