import type { CompiledSlate } from './compiled-slate.ts'
import { forget, isNoLater, mostInTime } from './most-in-time.ts'
import { doNext, isLate, lateInSequence, type PrintJob } from './print-job.ts'
import { fewestSwaps, loadedAtFirst, type OrderItem } from './printer-order.ts'

/** Jobs of printers that share reels, in the sequence in which they begin. */
export interface JointOrder {
  readonly sequence: readonly PrintJob[]
  readonly late: number
  readonly swaps: number
  /** Whether no sequence has fewer late, nor as few and fewer swaps. */
  readonly isLeast: boolean
}

/** A job, and what it has to do with reels that are put on. */
interface Step {
  readonly job: PrintJob
  readonly item: OrderItem
  readonly printer: number
  /** Place of each of its tools among `slots`: a tool of a printer. */
  readonly slots: readonly number[]
}

interface Begun {
  readonly set: number
  readonly free_h: Float64Array
  /** Which reel is on, by slot. */
  readonly on: readonly number[]
  readonly late: number
  readonly swaps: number
  readonly step: number
  readonly before: Begun | null
}

/** Up to so many jobs every sequence is looked at, in effect. */
const fewJobs = 9
/** Beginnings of one length, at most. */
const mostBegun = 4000
/** How often all jobs of a long sequence are moved about. */
const mostRounds = 3

/**
 * A joint order of the jobs of several printers: the fewest late, then the fewest swaps.
 *
 * @param sequence - one to begin with
 * @param items - the same jobs, by copy
 */
export const jointOrder = (
  slate: CompiledSlate,
  sequence: readonly PrintJob[],
  items: ReadonlyMap<number, OrderItem>,
): JointOrder => {
  const { free_h } = slate
  const due = sequence.filter(({ due_h }) => due_h < Infinity)
  const inTime = mostInTime(due, free_h)
  const late = due.length - inTime.jobs.length
  const slotAt = new Map<string, number>()
  const start: number[] = []
  const steps = sequence.map((job): Step => {
    const [printer] = job.needs as [number]
    const item = items.get(job.copy)!
    const slots = item.tools.map(({ tool }) => {
      const key = `${printer} ${tool}`
      const known = slotAt.get(key)
      if (known !== undefined) return known
      slotAt.set(key, start.length)
      start.push(loadedAtFirst(slate, printer).get(tool) ?? -1)
      return start.length - 1
    })
    return { job, item, printer, slots }
  })
  const swapsOf = (order: readonly Step[]): number => {
    const on = [...start]
    return order.reduce((sum, step) => sum + putOn(step, on), 0)
  }
  const stepOf = new Map(steps.map((step) => [step.job, step]))
  const done = new Set(inTime.jobs)
  const behind = sequence.filter((job) => !done.has(job))
  const asTold = lateInSequence(sequence, free_h) <= late ? [steps] : []
  const [first, ...others] = [
    [...inTime.jobs, ...behind].map((job) => stepOf.get(job)!),
    ...asTold,
  ].map((order): Tally => ({ order, swaps: swapsOf(order) }))
  let best: Tally = others.reduce((a, b) => (b.swaps < a.swaps ? b : a), first!)
  const fewest = [...Map.groupBy(steps, ({ printer }) => printer)].reduce(
    (sum, [printer, own]) =>
      sum +
      fewestSwaps(
        own.map(({ item }) => item),
        loadedAtFirst(slate, printer),
      ),
    0,
  )
  let isLeast = best.swaps <= fewest
  if (!isLeast && steps.length <= fewJobs) {
    const found = fewerSwaps(steps, start, free_h, late, best.swaps)
    isLeast = found.isAll
    if (found.order) best = { order: found.order, swaps: swapsOf(found.order) }
  } else if (!isLeast) {
    best = movedAbout(
      best,
      swapsOf,
      (order) =>
        lateInSequence(
          order.map(({ job }) => job),
          free_h,
        ) <= late,
    )
  }
  return {
    sequence: best.order.map(({ job }) => job),
    late,
    swaps: best.swaps,
    isLeast: isLeast && inTime.isMost,
  }
}

/** Puts on what a step needs, and says how many reels that are. */
const putOn = ({ item, slots }: Step, on: number[]): number => {
  let swaps = 0
  for (const [i, { first, last }] of item.tools.entries()) {
    const slot = slots[i]!
    if (on[slot] !== first) swaps++
    on[slot] = last
  }
  return swaps
}

/**
 * The sequence with the fewest swaps of those with no more than so many late, by all beginnings side by side;
 * of those with the same jobs done and the same reels on only those matter that are not later in everything.
 *
 * @param swaps - only fewer are wanted
 */
const fewerSwaps = (
  steps: readonly Step[],
  start: readonly number[],
  free_h: Float64Array,
  mostLate: number,
  swaps: number,
): { readonly order: readonly Step[] | null; readonly isAll: boolean } => {
  let layer: readonly Begun[] = [
    { set: 0, free_h, on: start, late: 0, swaps: 0, step: -1, before: null },
  ]
  let isAll = true
  for (let length = 1; length <= steps.length; length++) {
    const next = new Map<string, Begun[]>()
    for (const begun of layer) {
      for (const [i, step] of steps.entries()) {
        if (begun.set & (1 << i)) continue
        const free = begun.free_h.slice()
        const late = begun.late + Number(isLate(step.job, doNext(step.job, free)))
        const on = [...begun.on]
        const then = begun.swaps + putOn(step, on)
        const set = begun.set | (1 << i)
        const rest = steps.filter((_, k) => !(set & (1 << k)))
        if (late > mostLate || then + stillToPutOn(rest, on) >= swaps) continue
        forget(
          rest.map(({ job }) => job),
          free,
        )
        const key = `${set} ${on.join(' ')}`
        const list = next.get(key) ?? []
        const each: Begun = { set, free_h: free, on, late, swaps: then, step: i, before: begun }
        if (list.some((other) => isNoWorse(other, each))) continue
        next.set(key, [...list.filter((other) => !isNoWorse(each, other)), each])
      }
    }
    const all = [...next.values()].flat()
    isAll &&= all.length <= mostBegun
    layer =
      all.length <= mostBegun ? all : all.toSorted((a, b) => a.swaps - b.swaps).slice(0, mostBegun)
  }
  if (layer.length === 0) return { order: null, isAll }
  const order: Step[] = []
  const least = layer.reduce((a, b) => (b.swaps < a.swaps ? b : a))
  for (let at = least; at.before; at = at.before) order.unshift(steps[at.step]!)
  return { order, isAll }
}

const isNoWorse = (one: Begun, other: Begun): boolean =>
  one.late <= other.late && one.swaps <= other.swaps && isNoLater(one.free_h, other.free_h)

/** What is not on has to be put on once at least, unless a change brings it. */
const stillToPutOn = (rest: readonly Step[], on: readonly number[]): number => {
  const wanted = new Set<string>()
  const there = new Set(on.map((reel, slot) => `${slot} ${reel}`))
  for (const { item, slots } of rest) {
    for (const [i, { first, last }] of item.tools.entries()) {
      wanted.add(`${slots[i]} ${first}`)
      if (last !== first) there.add(`${slots[i]} ${last}`)
    }
  }
  return wanted.difference(there).size
}

interface Tally {
  readonly order: readonly Step[]
  readonly swaps: number
}

/** Moved about while swaps get fewer. */
const movedAbout = (
  start: Tally,
  swapsOf: (order: readonly Step[]) => number,
  isKept: (order: readonly Step[]) => boolean,
): Tally => {
  let best = start
  for (let round = 0; round < mostRounds; round++) {
    const before = best
    for (const from of start.order.keys()) {
      for (const to of start.order.keys()) {
        if (from === to) continue
        const order = best.order.toSpliced(from, 1).toSpliced(to, 0, best.order[from]!)
        const swaps = swapsOf(order)
        if (swaps < best.swaps && isKept(order)) best = { order, swaps }
      }
    }
    if (best === before) break
  }
  return best
}
