import { DomainError } from '../units/index.ts'
import {
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
  /** Chance that every reel lasts, on the safe side. */
  readonly chance: number
  readonly tools: readonly (ToolVerdict & { readonly tool: number })[]
}

/**
 * Whether all reels of a print last.
 *
 * The chance is the product of the tools' chances, which would be right if they had nothing in
 * common. What they do have in common (the scale's gain, the printer's feed factor, a firmware
 * family not yet named) moves their margins the same way, and then the true chance is higher, up to
 * the lowest of them. So *enough* is said by the product and *short* only by the lowest: each call
 * is on the side where being wrong costs nothing.
 *
 * @param tools - at least one; one reel each; the highest confidence asked for holds for the print
 * @throws DomainError `no_tools`, and as `judge`
 * @see D. Slepian, Bell Syst. Tech. J. 41 (1962) 463–501, from memory
 */
export const judgePrint = (tools: readonly ToolInput[]): PrintVerdict => {
  if (tools.length === 0) throw new DomainError('no_tools', 'a print verdict needs a tool')
  const each = tools.map((input) => ({ tool: input.tool, ...judge(input) }))
  const confidence = Math.max(...tools.map(confidenceOf))
  const chance = each.reduce((product, one) => product * one.chance, 1)
  const lowest = Math.min(...each.map((one) => one.chance))
  const isShort = callOf(lowest, confidence) === 'short'
  const isEnough = callOf(chance, confidence) === 'enough'
  return { verdict: isShort ? 'short' : isEnough ? 'enough' : 'close', chance, tools: each }
}
