import type { Choices } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'
import { joined } from './joined.ts'
import { jointOrder } from './joint-order.ts'
import { beginOf, doNext, isLate, jobsOf, lateInSequence, type PrintJob } from './print-job.ts'
import { type OrderedItems, orderOf } from './printer-order.ts'
import { type OrderItem, putOn, swapsAlong, toOrder } from './reels-on.ts'

/** The copies of one printer in an order, and what comes of it. */
export interface OrderedCopies {
  readonly printer: number
  /** Places of the copies. */
  readonly copies: readonly number[]
  /** Copies that end after their due time. */
  readonly late: number
  /** Reels put on between prints; those on it at first are none. */
  readonly swaps: number
  /** Whether no order is better. */
  readonly isLeast: boolean
}

/** When the copies of a plan are printed: the orders along its printers, and how these go together. */
export interface Timetable {
  /** In the order of the printers. */
  readonly orders: readonly OrderedCopies[]
  /** All of them in a sequence: each begins as soon as its printer and its reels are free. */
  readonly sequence: readonly PrintJob[]
  /** Places of the copies that end after their due time. */
  readonly late: ReadonlySet<number>
  /** Reels put on between prints. */
  readonly swaps: number
  /** The printers, those together whose order had to be found jointly. */
  readonly jointly: readonly (readonly number[])[]
}

/**
 * The best timetable found for some choices: the fewest copies late, then the fewest swaps. A reel is on one
 * printer at a time. Each printer is ordered by itself; where a copy would then be late only because it waits
 * for a reel, or a reel be put on again because it was elsewhere meanwhile, the printers that share reels with it
 * are ordered jointly.
 */
export const timetableOf = (slate: CompiledSlate, choices: Choices): Timetable => {
  const { items, atFirst } = toOrder(slate, choices)
  const itemOf = new Map(items.map((item) => [item.copy, item]))
  const itemsAlong = (jobs: readonly PrintJob[]): OrderItem[] =>
    jobs.map(({ copy }) => itemOf.get(copy)!)
  const apart = slate.printers.map((_, printer) =>
    orderOf(
      items.filter((item) => item.printer === printer),
      atFirst,
      slate.free_h[printer]!,
    ),
  )
  let sequence = interleaved(slate, jobsOf(slate, choices), apart)
  const isLeast = apart.map((each) => each.isLeast)
  const jointly: (readonly number[])[] = []
  for (const printers of sharingReels(slate, sequence)) {
    const isOfThem = ({ needs }: PrintJob): boolean => printers.includes(needs[0]!)
    const own = sequence.filter(isOfThem)
    const least = printers.reduce(
      ({ late, swaps }, printer) => ({
        late: late + apart[printer]!.late,
        swaps: swaps + apart[printer]!.swaps,
      }),
      { late: 0, swaps: 0 },
    )
    const isInTime = lateInSequence(own, slate.free_h) <= least.late
    if (isInTime && swapsAlong(itemsAlong(own), atFirst) <= least.swaps) {
      jointly.push(...printers.map((printer) => [printer]))
      continue
    }
    const isSure = printers.every((printer) => apart[printer]!.isLeast)
    const joint = jointOrder({
      sequence: own,
      items: itemOf,
      atFirst,
      free_h: slate.free_h,
      least: { late: least.late, swaps: isSure ? least.swaps : 0 },
    })
    sequence = [...sequence.filter((job) => !isOfThem(job)), ...joint.sequence]
    for (const printer of printers) isLeast[printer] = joint.isLeast
    jointly.push(printers)
  }
  const late = lateIn(slate, sequence)
  const swapsOn = slate.printers.map(() => 0)
  const on = [...atFirst]
  for (const item of itemsAlong(sequence)) swapsOn[item.printer]! += putOn(on, item)
  return {
    orders: slate.printers.map((_, printer): OrderedCopies => {
      const own = sequence.filter(({ needs }) => needs[0] === printer)
      return {
        printer,
        copies: own.map(({ copy }) => copy),
        late: own.filter(({ copy }) => late.has(copy)).length,
        swaps: swapsOn[printer]!,
        isLeast: isLeast[printer]!,
      }
    }),
    sequence,
    late,
    swaps: swapsOn.reduce((sum, swaps) => sum + swaps, 0),
    jointly,
  }
}

/** The printers, those together of which one does a job with a reel that another does one with. */
const sharingReels = (
  { printers }: CompiledSlate,
  jobs: readonly PrintJob[],
): readonly (readonly number[])[] =>
  joined(
    Array.from(printers.keys(), (printer) => [printer]),
    (printer) => jobs.flatMap(({ needs }) => (needs[0] === printer ? needs.slice(1) : [])),
  )

/** The orders of printers in one sequence: of the copies that come next the one that can begin first. */
const interleaved = (
  { free_h }: CompiledSlate,
  jobs: readonly PrintJob[],
  orders: readonly OrderedItems[],
): PrintJob[] => {
  const free = free_h.slice()
  const jobOf = new Map(jobs.map((job) => [job.copy, job]))
  const waiting = orders.map(({ items }) => items.map(({ copy }) => jobOf.get(copy)!))
  const sequence: PrintJob[] = []
  for (;;) {
    let next: PrintJob[] | null = null
    for (const own of waiting) {
      if (own.length === 0) continue
      if (!next || beginOf(own[0]!, free) < beginOf(next[0]!, free)) next = own
    }
    const job = next?.shift()
    if (!job) return sequence
    doNext(job, free)
    sequence.push(job)
  }
}

const lateIn = ({ free_h }: CompiledSlate, sequence: readonly PrintJob[]): ReadonlySet<number> => {
  const free = free_h.slice()
  return new Set(sequence.flatMap((job) => (isLate(job, doNext(job, free)) ? [job.copy] : [])))
}
