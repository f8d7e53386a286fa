import { type Choices, loadsOf } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'
import { placesPutOn } from './plan-value.ts'
import { type Timetable, timetableOf } from './timetable.ts'

/** Copies that together have more swaps than their loads alone cost. */
export interface MoreSwaps {
  /** Places. */
  readonly copies: readonly number[]
  /** How many more on their printers, at least, whatever else is done. */
  readonly more: number
}

/** Of more copies it is not asked which of them it is: each is a timetable. */
const manyCopies = 12

/** How many more swaps the timetable of choices has than their loads alone cost. */
export const moreSwapsIn = (slate: CompiledSlate, choices: Choices): number =>
  sumOf(moreOn(slate, choices, timetableOf(slate, choices)))

/**
 * Which copies have more swaps than their loads alone cost: of printers that were ordered together as few as have
 * just as many more, and as few as have one more; of many copies all. Those of which no least order was found are left out.
 */
export const moreSwapsWhy = (slate: CompiledSlate, choices: Choices): readonly MoreSwaps[] => {
  const all = timetableOf(slate, choices)
  const more = moreOn(slate, choices, all)
  const found: MoreSwaps[] = []
  for (const printers of all.jointly) {
    const own = sumOf(printers.map((printer) => more[printer]!))
    if (own <= 0 || !printers.every((printer) => all.orders[printer]!.isLeast)) continue
    const copies = printers.flatMap((printer) => all.orders[printer]!.copies)
    // With fewer late elsewhere more of these may be: what is said must hold of all that are late.
    const isAll = copies.filter((copy) => all.late.has(copy)).length === all.late.size
    const of = isAll ? copies : all.sequence.map(({ copy }) => copy)
    const asMany = fewWith(slate, choices, all.late.size, of, own)
    found.push({ copies: asMany, more: own })
    if (own > 1) found.push({ copies: fewWith(slate, choices, all.late.size, asMany, 1), more: 1 })
  }
  return found
}

/** As few of some copies as still have so many more, however many of those that are late are among them. */
const fewWith = (
  slate: CompiledSlate,
  choices: Choices,
  late: number,
  copies: readonly number[],
  least: number,
): readonly number[] => {
  let few = copies
  if (copies.length > manyCopies) return few
  const leisurely: CompiledSlate = {
    ...slate,
    copies: slate.copies.map((copy) => ({ ...copy, due_h: null })),
  }
  for (const copy of copies) {
    const rest = few.filter((each) => each !== copy)
    const only = choices.map((choice, place) => (rest.includes(place) ? choice : null))
    const hasSoMany = (of: CompiledSlate, mayBeLate: number): boolean => {
      const timetable = timetableOf(of, only)
      const isLeast = timetable.orders.every((order) => order.isLeast)
      return (
        timetable.late.size === mayBeLate &&
        isLeast &&
        sumOf(moreOn(slate, only, timetable)) >= least
      )
    }
    if (hasSoMany(slate, late) || (late > 0 && hasSoMany(leisurely, 0))) few = rest
  }
  return few
}

/** By printer, how many more swaps than loads alone cost. */
const moreOn = (
  slate: CompiledSlate,
  choices: Choices,
  { orders }: Timetable,
): readonly number[] => {
  const more = orders.map(({ swaps }) => swaps)
  for (const [reel, load] of loadsOf(choices, slate.reels.length).entries()) {
    for (const place of placesPutOn(slate, reel, load)) more[place % more.length]!--
  }
  return more
}

const sumOf = (list: readonly number[]): number => list.reduce((sum, each) => sum + each, 0)
