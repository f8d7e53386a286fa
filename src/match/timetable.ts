import type { Choices } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'
import { jointOrder } from './joint-order.ts'
import { beginOf, doNext, isLate, jobsOf, lateInSequence, type PrintJob } from './print-job.ts'
import { type OrderedCopies, orderItem, orderPrinters, swapsAlong } from './printer-order.ts'

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
 * for a reel, the printers that share reels with it are ordered jointly.
 */
export const timetableOf = (slate: CompiledSlate, choices: Choices): Timetable => {
  const jobs = new Map(jobsOf(slate, choices).map((job) => [job.copy, job]))
  const apart = orderPrinters(slate, choices)
  let sequence = interleaved(slate, jobs, apart)
  let orders = apart
  const jointly: (readonly number[])[] = []
  for (const printers of sharingReels(slate, sequence)) {
    const isOfThem = ({ needs }: PrintJob): boolean => printers.includes(needs[0]!)
    const own = sequence.filter(isOfThem)
    const lateApart = printers.reduce((sum, printer) => sum + apart[printer]!.late, 0)
    if (lateInSequence(own, slate.free_h) <= lateApart) {
      jointly.push(...printers.map((printer) => [printer]))
      continue
    }
    const items = new Map(own.map(({ copy }) => [copy, orderItem(slate, copy, choices[copy]!)]))
    const joint = jointOrder(slate, own, items)
    sequence = [...sequence.filter((job) => !isOfThem(job)), ...joint.sequence]
    const late = lateIn(slate, joint.sequence)
    orders = orders.map((order) => {
      if (!printers.includes(order.printer)) return order
      const copies = joint.sequence.filter(({ needs }) => needs[0] === order.printer)
      return {
        ...order,
        copies: copies.map(({ copy }) => copy),
        late: copies.filter(({ copy }) => late.has(copy)).length,
        swaps: swapsAlong(
          slate,
          order.printer,
          copies.map(({ copy }) => items.get(copy)!),
        ),
        isLeast: joint.isLeast,
      }
    })
    jointly.push(printers)
  }
  return {
    orders,
    sequence,
    late: lateIn(slate, sequence),
    swaps: orders.reduce((sum, { swaps }) => sum + swaps, 0),
    jointly,
  }
}

/** The printers, those together of which one does a job with a reel that another does one with. */
const sharingReels = (
  { printers }: CompiledSlate,
  jobs: readonly PrintJob[],
): readonly (readonly number[])[] => {
  let groups: { readonly printers: readonly number[]; readonly reels: ReadonlySet<number> }[] = []
  for (const printer of printers.keys()) {
    const own = jobs.filter(({ needs }) => needs[0] === printer)
    const reels = new Set(own.flatMap(({ needs }) => needs.slice(1)))
    const [meets, apart] = [
      groups.filter((group) => !group.reels.isDisjointFrom(reels)),
      groups.filter((group) => group.reels.isDisjointFrom(reels)),
    ]
    const all = {
      printers: [...meets.flatMap((group) => group.printers), printer],
      reels: meets.reduce((sum, group) => sum.union(group.reels), reels),
    }
    groups = [...apart, all]
  }
  return groups.map((group) => group.printers)
}

/** The orders of printers in one sequence: of the copies that come next the one that can begin first. */
const interleaved = (
  { free_h }: CompiledSlate,
  jobs: ReadonlyMap<number, PrintJob>,
  orders: readonly OrderedCopies[],
): PrintJob[] => {
  const free = free_h.slice()
  const waiting = orders.map(({ copies }) => copies.map((copy) => jobs.get(copy)!))
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
