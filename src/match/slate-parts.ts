import { type CompiledCopy, type CompiledSlate, compileSlate } from './compiled-slate.ts'
import { canBeLate } from './last-end.ts'
import type { MatchSlate } from './slate.ts'
import type { SlatePart } from './slate-problem.ts'

/**
 * Splits a slate into parts that have nothing to do with each other, so that each can be solved apart:
 * copies belong together when a reel fits both, as of one material and diameter, or when one printer may
 * do both and any of those that hang together in this way could be late. So do copies of several tools that have
 * different reels of a printer on it: whichever is first takes those of the other off. Reels that fit nothing
 * are in no part.
 */
export const slateParts = (slate: CompiledSlate): readonly SlatePart[] => {
  const byReel = partsJoined(slate, () => false)
  const byPrinter = partsJoined(slate, () => true)
  const timed = new Set(byPrinter.flatMap(({ copies }) => (canBeLate(slate, copies) ? copies : [])))
  return timed.size === 0 ? byReel : partsJoined(slate, (copy) => timed.has(copy))
}

/** @param byPrinter - whether a copy belongs to others as well that one of its printers may do */
const partsJoined = (
  slate: CompiledSlate,
  byPrinter: (copy: number) => boolean,
): readonly SlatePart[] => {
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
  for (const printer of printers.keys()) {
    const may = copies.filter((copy) => copy.printers.includes(printer) && byPrinter(copy.place))
    for (const { place } of may) join(place, may[0]!.place)
    const two = copies.filter(
      (copy) => copy.printers.includes(printer) && hasOneOn(slate, copy, printer),
    )
    for (const { place } of two) join(place, two[0]!.place)
  }
  const byRoot = Map.groupBy(copies, ({ place }) => rootOf(place))
  return [...byRoot].map(([root, own]) => ({
    copies: own.map(({ place }) => place),
    reels: reels.flatMap((_, reel) => (rootOf(copies.length + reel) === root ? [reel] : [])),
  }))
}

/** Whether a copy of several tools may go on with a reel that is on the printer. */
const hasOneOn = (
  { printers, reels }: CompiledSlate,
  { tasks }: CompiledCopy,
  printer: number,
): boolean => {
  const { loaded = {} } = printers[printer]!
  return (
    tasks.length > 1 &&
    tasks.some((task) => task.reels.some((reel) => reels[reel]!.id === loaded[task.tool]))
  )
}

/**
 * How many parts of a slate have so many copies.
 *
 * @throws DomainError as `compileSlate`
 */
export const countParts = (slate: MatchSlate, copies: number): number =>
  slateParts(compileSlate(slate)).filter((part) => part.copies.length >= copies).length
