import { type CompiledSlate, compileSlate } from './compiled-slate.ts'
import type { MatchSlate } from './slate.ts'
import type { SlatePart } from './slate-problem.ts'

/**
 * Splits a slate into parts that have nothing to do with each other, so that each can be solved apart:
 * copies belong together when a reel fits both, as of one material and diameter, or when one printer may
 * do both and could be too busy to do all of its copies in time. Reels that fit nothing are in no part.
 */
export const slateParts = (slate: CompiledSlate): readonly SlatePart[] => {
  const { copies, reels, printers } = slate
  const parent = Int32Array.from({ length: copies.length + reels.length }, (_, i) => i)
  const rootOf = (node: number): number => {
    let root = node
    while (parent[root] !== root) root = parent[root]!
    let at = node
    while (parent[at] !== root) [parent[at], at] = [root, parent[at]!]
    return root
  }
  const join = (a: number, b: number): void => {
    parent[rootOf(a)] = rootOf(b)
  }
  for (const { place, tasks } of copies) {
    for (const reel of tasks.flatMap((task) => task.reels)) join(place, copies.length + reel)
  }
  for (const [printer, { free_h = 0 }] of printers.entries()) {
    const may = copies.filter((copy) => copy.printers.includes(printer))
    const total = may.reduce((sum, { duration_h }) => sum + (duration_h ?? 0), free_h)
    const soonest = Math.min(...may.map(({ due_h }) => due_h ?? Infinity))
    if (total <= soonest) continue
    for (const { place } of may) join(place, may[0]!.place)
  }
  const byRoot = Map.groupBy(copies, ({ place }) => rootOf(place))
  return [...byRoot].map(([root, own]) => ({
    copies: own.map(({ place }) => place),
    reels: reels.flatMap((_, reel) => (rootOf(copies.length + reel) === root ? [reel] : [])),
  }))
}

/**
 * How many parts of a slate have so many copies.
 *
 * @throws DomainError as `compileSlate`
 */
export const countParts = (slate: MatchSlate, copies: number): number =>
  slateParts(compileSlate(slate)).filter((part) => part.copies.length >= copies).length
