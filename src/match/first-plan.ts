import { bestChoice } from './best-choice.ts'
import type { Choice, Choices } from './choice.ts'
import type { CompiledCopy, CompiledSlate } from './compiled-slate.ts'
import type { LoadMaker, ReelLoad } from './reel-load.ts'

/**
 * A plan put together one copy after the other, the most important first, of those the soonest due and
 * of those the largest: each goes where it adds least, level by level, and of reels that are as good on the
 * one that it leaves least on. Where that leaves copies out the smallest are tried first as well, as more of
 * them go in, unless somebody has had enough by then. Every load of it is safe. It is where the search begins,
 * and what is left of it where there is no time.
 */
export const firstPlan = (
  slate: CompiledSlate,
  maker: LoadMaker,
  isCancelled: () => boolean = () => false,
): Choices => {
  const largestFirst = putTogether(slate, maker, inOrder(slate.copies, -1))
  if (!largestFirst.includes(null) || isCancelled()) return largestFirst
  const smallestFirst = putTogether(slate, maker, inOrder(slate.copies, 1))
  return servesMore(slate, smallestFirst, largestFirst) ? smallestFirst : largestFirst
}

const putTogether = (
  slate: CompiledSlate,
  maker: LoadMaker,
  order: readonly CompiledCopy[],
): Choices => {
  const loads: ReelLoad[] = slate.reels.map((_, reel) => maker.made(reel, []))
  const isDue = duePrinters(slate)
  const choices: (Choice | null)[] = slate.copies.map(() => null)
  for (const copy of order) {
    // Where copies are due, one printer is not to be filled with them to save a swap.
    const ignoresSwaps = copy.printers.some((printer) => isDue[printer]!)
    const choice = bestChoice(slate, maker, loads, copy, { ignoresSwaps })
    if (!choice) continue
    choices[copy.place] = choice
    for (const [reel, load] of choice.after) loads[reel] = load
  }
  return choices
}

/** @param bySize - 1: the smallest first; −1: the largest */
const inOrder = (copies: readonly CompiledCopy[], bySize: 1 | -1): readonly CompiledCopy[] =>
  copies.toSorted(
    (a, b) =>
      b.importance - a.importance ||
      compare(a.due_h ?? Infinity, b.due_h ?? Infinity) ||
      bySize * (drawOf(a) - drawOf(b)),
  )

/** Whether one plan serves more than another of the most important copies in which they differ. */
const servesMore = ({ copies }: CompiledSlate, one: Choices, other: Choices): boolean => {
  const more = new Map<number, number>()
  for (const { place, importance } of copies) {
    const by = Number(one[place] !== null) - Number(other[place] !== null)
    more.set(importance, (more.get(importance) ?? 0) + by)
  }
  const [decisive] = [...more].filter(([, by]) => by !== 0).toSorted(([a], [b]) => b - a)
  return decisive !== undefined && decisive[1] > 0
}

/** For each printer, by place, whether a copy that it may do is due some time. */
const duePrinters = ({ printers, copies }: CompiledSlate): readonly boolean[] =>
  printers.map((_, printer) =>
    copies.some((copy) => copy.due_h !== null && copy.printers.includes(printer)),
  )

/** What its tools draw together, mm. */
export const drawOf = ({ tasks }: CompiledCopy): number =>
  tasks.reduce((sum, { nodes }) => sum + nodes.at(-1)!.drawn[0]!.length_mm, 0)

const compare = (a: number, b: number): number => (a === b ? 0 : a < b ? -1 : 1)
