import { accept, type Outcome, refuse } from '../units/index.ts'

/**
 * One reel for each tool of a print. A reel told without a tool serves the first that is left.
 *
 * @param numbers - tools that the print feeds from
 * @returns by the tool; `tool_twice`, `tool_not_used`, `reel_without_tool` (one or more are left over),
 *   `tool_without_reel`, which expects the first of those
 */
export const reelsForTools = <R extends { readonly tool?: number }>(
  numbers: readonly number[],
  reels: readonly R[],
): Outcome<ReadonlyMap<number, R>> => {
  const named = new Set(reels.map(({ tool }) => tool))
  const free = numbers.filter((tool) => !named.has(tool))
  const given = new Map<number, R>()
  for (const one of reels) {
    const tool = one.tool ?? free.shift()
    if (tool === undefined) {
      const more =
        reels.length - numbers.length > 1
          ? 'there are more reels than that'
          : 'there is one reel more than that'
      return refuse({
        code: 'reel_without_tool',
        message: `The print feeds from ${listOf(numbers)}, and ${more}.`,
      })
    }
    if (!numbers.includes(tool)) {
      return refuse({
        code: 'tool_not_used',
        message: `The print does not feed from T${tool}. It feeds from ${listOf(numbers)}.`,
        received: `T${tool}`,
      })
    }
    if (given.has(tool)) {
      return refuse({
        code: 'tool_twice',
        message: `T${tool} is given twice. One reel serves a tool.`,
        received: `T${tool}`,
      })
    }
    given.set(tool, one)
  }
  const without = numbers.filter((tool) => !given.has(tool))
  if (without.length === 0) return accept(given)
  return refuse({
    code: 'tool_without_reel',
    message: `The print feeds from ${listOf(numbers)}: say which reel serves ${listOf(without)}.`,
    expected: `T${without[0]}`,
  })
}

const listOf = (tools: readonly number[]): string => tools.map((tool) => `T${tool}`).join(', ')
