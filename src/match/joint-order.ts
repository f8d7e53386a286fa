import { forget, isNoLater, mostInTime } from './most-in-time.ts'
import { doNext, isLate, lateInSequence, type PrintJob } from './print-job.ts'
import { orderAtLeisure } from './printer-order.ts'
import { type OrderItem, putOn, type ReelsOn, swapsAlong } from './reels-on.ts'

/** Jobs of printers that share reels, in the sequence in which they begin. */
export interface JointOrder {
  readonly sequence: readonly PrintJob[]
  /** Whether no sequence has fewer late, nor as few and fewer swaps. */
  readonly isLeast: boolean
}

/** What is to be ordered, and what is known of it. */
export interface ToOrderJointly {
  /** A sequence to begin with. */
  readonly sequence: readonly PrintJob[]
  /** The same jobs, by copy. */
  readonly items: ReadonlyMap<number, OrderItem>
  readonly atFirst: ReelsOn
  readonly free_h: Float64Array
  /** No sequence has fewer late, nor as few and fewer swaps. */
  readonly least: { readonly late: number; readonly swaps: number }
}

/** A job, and what it has to do with reels that are put on. */
interface Step {
  readonly job: PrintJob
  readonly item: OrderItem
}

interface Tally {
  readonly order: readonly Step[]
  readonly swaps: number
}

interface Begun {
  readonly set: number
  readonly free_h: Float64Array
  readonly on: ReelsOn
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

/** A joint order of the jobs of several printers: the fewest late, then the fewest swaps. */
export const jointOrder = (asked: ToOrderJointly): JointOrder => {
  const { sequence, items, atFirst, free_h, least } = asked
  const steps = sequence.map((job): Step => ({ job, item: items.get(job.copy)! }))
  const due = sequence.filter(({ due_h }) => due_h < Infinity)
  const lateAsTold = lateInSequence(sequence, free_h)
  const inTime = lateAsTold > least.late ? mostInTime(due, free_h) : null
  const late = inTime ? due.length - inTime.jobs.length : lateAsTold
  const isKept = (order: readonly Step[]): boolean =>
    lateInSequence(
      order.map(({ job }) => job),
      free_h,
    ) <= late
  const tally = (order: readonly Step[]): Tally => ({
    order,
    swaps: swapsAlong(
      order.map(({ item }) => item),
      atFirst,
    ),
  })
  const stepOf = new Map(steps.map((step) => [step.job.copy, step]))
  const leisurely = orderAtLeisure(
    steps.map(({ item }) => item),
    atFirst,
  )
  const first = new Set(inTime?.jobs.map(({ copy }) => stepOf.get(copy)!))
  const starts = [
    [...first, ...steps.filter((step) => !first.has(step))],
    ...(inTime ? [steps] : []),
    leisurely.items.map(({ copy }) => stepOf.get(copy)!),
  ].filter(isKept)
  const fewest = Math.max(
    leisurely.isLeast ? leisurely.swaps : 0,
    late === least.late ? least.swaps : 0,
  )
  let best = starts.map(tally).reduce((a, b) => (b.swaps < a.swaps ? b : a))
  let isLeast = best.swaps <= fewest
  if (!isLeast) {
    const nearer = starts.map((order) => tally(withoutPuttingOn(order, atFirst, isKept)))
    best = [best, ...nearer].reduce((a, b) => (b.swaps < a.swaps ? b : a))
    isLeast = best.swaps <= fewest
  }
  if (!isLeast && steps.length <= fewJobs) {
    const found = fewerSwaps(steps, atFirst, free_h, late, best.swaps)
    isLeast = found.isAll
    if (found.order) best = tally(found.order)
  } else if (!isLeast) {
    best = movedAbout(best, tally, isKept)
    isLeast = best.swaps <= fewest
  }
  return {
    sequence: best.order.map(({ job }) => job),
    isLeast: isLeast && inTime?.isMost !== false,
  }
}

/**
 * The sequence with the fewest swaps of those with no more than so many late, by all beginnings side by side;
 * of those with the same jobs done and the same reels on only those matter that are not later in everything.
 *
 * @param swaps - only fewer are wanted
 */
const fewerSwaps = (
  steps: readonly Step[],
  atFirst: ReelsOn,
  free_h: Float64Array,
  mostLate: number,
  swaps: number,
): { readonly order: readonly Step[] | null; readonly isAll: boolean } => {
  const twin = steps.map((step, i) => steps.findIndex((each, k) => k < i && isAlike(each, step)))
  const left = leftOf(steps)
  let layer: readonly Begun[] = [
    { set: 0, free_h, on: atFirst, late: 0, swaps: 0, step: -1, before: null },
  ]
  let isAll = true
  for (let length = 1; length <= steps.length; length++) {
    const next = new Map<string, Begun[]>()
    for (const begun of layer) {
      for (const [i, step] of steps.entries()) {
        if (begun.set & (1 << i)) continue
        // Of those that are alike the first is done first.
        if (twin[i]! >= 0 && !(begun.set & (1 << twin[i]!))) continue
        const free = begun.free_h.slice()
        const late = begun.late + Number(isLate(step.job, doNext(step.job, free)))
        if (late > mostLate) continue
        const on = [...begun.on]
        const then = begun.swaps + putOn(on, step.item)
        const set = begun.set | (1 << i)
        const rest = left(set)
        if (then + rest.toPutOn(on) >= swaps) continue
        forget(rest.jobs, free)
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

const isAlike = (one: Step, other: Step): boolean =>
  one.job.duration_h === other.job.duration_h &&
  one.job.due_h === other.job.due_h &&
  one.item.printer === other.item.printer &&
  one.item.tools.length === other.item.tools.length &&
  one.item.tools.every(({ at, reels }, i) => {
    const there = other.item.tools[i]!
    return at === there.at && reels.join(' ') === there.reels.join(' ')
  })

const isNoWorse = (one: Begun, other: Begun): boolean =>
  one.late <= other.late && one.swaps <= other.swaps && isNoLater(one.free_h, other.free_h)

/** What is left behind a set of steps, and how many reels it has to have put on at least. */
interface Left {
  readonly jobs: readonly PrintJob[]
  readonly toPutOn: (on: ReelsOn) => number
}

const leftOf = (steps: readonly Step[]): ((set: number) => Left) => {
  const known = new Map<number, Left>()
  return (set) => {
    const before = known.get(set)
    if (before) return before
    const rest = steps.filter((_, i) => !(set & (1 << i)))
    const brought = new Set<string>()
    const wanted = new Map<string, { readonly at: number; readonly reel: number }>()
    for (const { at, reels } of rest.flatMap(({ item }) => item.tools)) {
      wanted.set(`${at} ${reels[0]}`, { at, reel: reels[0]! })
      if (reels.length > 1) brought.add(`${at} ${reels.at(-1)}`)
    }
    const needed = [...wanted].flatMap(([pair, each]) => (brought.has(pair) ? [] : [each]))
    const made: Left = {
      jobs: rest.map(({ job }) => job),
      toPutOn: (on) => needed.reduce((sum, { at, reel }) => sum + Number(on[at] !== reel), 0),
    }
    known.set(set, made)
    return made
  }
}

/** The sequence with what needs no reel put on done at once, as long as that is allowed. */
const withoutPuttingOn = (
  order: readonly Step[],
  atFirst: ReelsOn,
  isKept: (order: readonly Step[]) => boolean,
): readonly Step[] => {
  const on = [...atFirst]
  let all = order
  for (let done = 0; done < order.length; done++) {
    for (let i = done; i < order.length; i++) {
      const step = all[i]!
      if (putOn([...on], step.item) > 0) continue
      const sooner = all.toSpliced(i, 1).toSpliced(done, 0, step)
      if (i > done && !isKept(sooner)) continue
      all = sooner
      break
    }
    putOn(on, all[done]!.item)
  }
  return all
}

/** Moved about while swaps get fewer. */
const movedAbout = (
  start: Tally,
  tally: (order: readonly Step[]) => Tally,
  isKept: (order: readonly Step[]) => boolean,
): Tally => {
  let best = start
  for (let round = 0; round < mostRounds; round++) {
    const before = best
    for (const from of start.order.keys()) {
      for (const to of start.order.keys()) {
        if (from === to) continue
        const moved = tally(best.order.toSpliced(from, 1).toSpliced(to, 0, best.order[from]!))
        if (moved.swaps < best.swaps && isKept(moved.order)) best = moved
      }
    }
    if (best === before) break
  }
  return best
}
