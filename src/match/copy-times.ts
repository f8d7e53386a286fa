import type { Choices } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'
import type { OrderedCopies } from './printer-order.ts'

/** When a copy is printed. */
export interface CopyTime {
  /** Hours from now; null from the first duration on that is not known. */
  readonly begins_h: number | null
  readonly ends_h: number | null
  /** By what is known at least. */
  readonly late: boolean
  /** Place of a reel that is still on another printer when this one is free; null where it need not wait. */
  readonly waitsFor: number | null
}

/** From when on something is free. */
interface Free {
  readonly at_h: number
  /** False where a duration before it is not known; then it is free no sooner. */
  readonly known: boolean
}

const atOnce: Free = { at_h: 0, known: true }
/** Less than this is no time, h. */
const instant = 1e-9

/**
 * When the copies of a plan are printed, each printer in its order and no reel on two printers at once: of
 * the copies that come next on their printers the one that can begin first does, and has its printer and all
 * its reels until it ends. What is on a printer at first is free when that printer is.
 *
 * @returns by the copy's place
 */
export const copyTimes = (
  { copies, printers, reels }: CompiledSlate,
  choices: Choices,
  orders: readonly OrderedCopies[],
): ReadonlyMap<number, CopyTime> => {
  const printerFree = printers.map(({ free_h = 0 }): Free => ({ at_h: free_h, known: true }))
  const reelFree = new Map<number, Free>()
  for (const [printer, { loaded = {} }] of printers.entries()) {
    for (const id of Object.values(loaded)) {
      const reel = reels.findIndex((each) => each.id === id)
      if (reel >= 0) reelFree.set(reel, printerFree[printer]!)
    }
  }
  const next = orders.map(() => 0)
  const times = new Map<number, CopyTime>()
  const beginOf = (copy: number, printer: number): Free & Pick<CopyTime, 'waitsFor'> => {
    let begin: Free & Pick<CopyTime, 'waitsFor'> = { ...printerFree[printer]!, waitsFor: null }
    for (const { reel } of choices[copy]!.servings) {
      const { at_h, known } = reelFree.get(reel) ?? atOnce
      if (at_h > begin.at_h + instant) begin = { at_h, known: begin.known && known, waitsFor: reel }
      else if (!known) begin = { ...begin, known: false }
    }
    return begin
  }
  for (;;) {
    const ready = orders.flatMap(({ printer, copies: order }, place) => {
      const copy = order[next[place]!]
      return copy === undefined ? [] : [{ place, printer, copy, ...beginOf(copy, printer) }]
    })
    const [first] = ready.toSorted((a, b) => a.at_h - b.at_h || a.place - b.place)
    if (!first) return times
    const { copy, at_h, known, waitsFor } = first
    const { duration_h, due_h } = copies[copy]!
    const end: Free = { at_h: at_h + (duration_h ?? 0), known: known && duration_h !== null }
    times.set(copy, {
      begins_h: known ? at_h : null,
      ends_h: end.known ? end.at_h : null,
      late: end.at_h > (due_h ?? Infinity) + instant,
      waitsFor,
    })
    printerFree[first.printer] = end
    for (const { reel } of choices[copy]!.servings) reelFree.set(reel, end)
    next[first.place]!++
  }
}
