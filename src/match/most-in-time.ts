import { beginOf, doNext, instant, isLate, lateInSequence, type PrintJob } from './print-job.ts'

/** Jobs that can be in time together. */
export interface InTime {
  /** In a sequence in which they are. */
  readonly jobs: readonly PrintJob[]
  /** Whether there are not more; where so many were asked for, whether there are not so many. */
  readonly isMost: boolean
}

/** A beginning of a sequence. */
interface Begun {
  /** Bits of the jobs in it. */
  readonly set: number
  readonly free_h: Float64Array
  readonly job: number
  readonly before: Begun | null
  /** How many more can be in time at most. */
  readonly more: number
}

/** So many jobs are looked at in every sequence, in effect; of more only some. */
const fewJobs = 30
/** Beginnings of one length, at most, unless fewer are wished for. */
const mostBegun = 2000

/** What is wished of a look for jobs in time. */
export interface InTimeWish {
  /** So many are enough, and fewer are of no interest. */
  readonly asked?: number
  /** Beginnings of one length, at most. */
  readonly width?: number
}

/**
 * As many jobs in time as can be: beginnings of sequences grow side by side, and of those with the same jobs
 * in them only those are kept that leave something free sooner. What is late can be done afterwards and is
 * in the way of nothing.
 *
 * @param jobs - with due times
 * @param free_h - when what they need is free at first
 */
export const mostInTime = (
  jobs: readonly PrintJob[],
  free_h: Float64Array,
  { asked, width = mostBegun }: InTimeWish = {},
): InTime => {
  const byDue = jobs.toSorted((a, b) => a.due_h - b.due_h)
  const most = Math.min(asked ?? jobs.length, canBeInTime(byDue, free_h))
  let best = greedily(byDue, free_h)
  if (best.length >= most) return { jobs: best, isMost: true }
  const wanted = asked ?? 0
  if (most < wanted) return { jobs: best, isMost: true }
  if (byDue.length > fewJobs) return { jobs: best, isMost: false }

  let isMost = true
  let layer: readonly Begun[] = [{ set: 0, free_h, job: -1, before: null, more: most }]
  for (let length = 1; layer.length > 0 && best.length < most; length++) {
    const next = new Map<number, Begun[]>()
    let found: Begun | null = null
    for (const begun of layer) {
      for (const [i, job] of byDue.entries()) {
        const bit = 1 << i
        if (begun.set & bit) continue
        if (isLate(job, beginOf(job, begun.free_h) + job.duration_h)) continue
        const free = begun.free_h.slice()
        doNext(job, free)
        const set = begun.set | bit
        const rest = byDue.filter((_, k) => !(set & (1 << k)))
        const more = canBeInTime(rest, free)
        if (length + more < Math.max(wanted, best.length + 1)) continue
        forget(rest, free)
        found = { set, free_h: free, job: i, before: begun, more }
        keepSooner(next, found)
      }
    }
    if (found && length > best.length) best = sequenceOf(found, byDue)
    const all = [...next.values()].flat()
    layer = all.length <= width ? all : foremost(all, width)
    isMost &&= all.length <= width
  }
  return { jobs: best, isMost: isMost || best.length >= most }
}

/** Adds a beginning unless one with the same jobs leaves everything free as soon. */
const keepSooner = (known: Map<number, Begun[]>, begun: Begun): void => {
  const list = known.get(begun.set) ?? []
  if (list.some(({ free_h }) => isNoLater(free_h, begun.free_h))) return
  known.set(begun.set, [...list.filter(({ free_h }) => !isNoLater(begun.free_h, free_h)), begun])
}

/** Whether everything is free as soon in one as in the other. */
export const isNoLater = (one: Float64Array, other: Float64Array): boolean =>
  one.every((at, i) => at <= other[i]! + instant)

/** When something is free that no job needs any more is no matter. */
export const forget = (jobs: readonly PrintJob[], free_h: Float64Array): void => {
  const needed = new Set(jobs.flatMap(({ needs }) => needs))
  for (const at of free_h.keys()) if (!needed.has(at)) free_h[at] = 0
}

const foremost = (all: readonly Begun[], width: number): readonly Begun[] => {
  const sum = ({ free_h }: Begun): number => free_h.reduce((total, at) => total + at, 0)
  const ranked = all.map((begun) => ({ begun, sum: sum(begun) }))
  ranked.sort((a, b) => b.begun.more - a.begun.more || a.sum - b.sum)
  return ranked.slice(0, width).map(({ begun }) => begun)
}

const sequenceOf = (last: Begun, jobs: readonly PrintJob[]): PrintJob[] => {
  const sequence: PrintJob[] = []
  for (let at: Begun = last; at.before; at = at.before) sequence.unshift(jobs[at.job]!)
  return sequence
}

/** By due time, each behind those before; where that makes one late, the longest without which none is goes. */
const greedily = (byDue: readonly PrintJob[], free_h: Float64Array): readonly PrintJob[] => {
  let inTime: readonly PrintJob[] = []
  for (const job of byDue) {
    const all = [...inTime, job]
    if (lateInSequence(all, free_h) === 0) {
      inTime = all
      continue
    }
    const spared = all
      .toSorted((a, b) => b.duration_h - a.duration_h)
      .find(
        (one) =>
          lateInSequence(
            all.filter((each) => each !== one),
            free_h,
          ) === 0,
      )
    inTime = all.filter((each) => each !== spared)
  }
  return inTime
}

/**
 * No more of some jobs, the soonest due first, can be in time: each thing by itself does no more of those that
 * need it (Moore 1968, from memory), each job counted with its printer, or with a reel it shares.
 */
const canBeInTime = (byDue: readonly PrintJob[], free_h: Float64Array): number => {
  const shared = new Set<number>()
  const seen = new Set<number>()
  for (const need of byDue.flatMap(({ needs }) => needs.slice(1))) {
    if (seen.has(need)) shared.add(need)
    seen.add(need)
  }
  const byPrinter = mostAlong(byDue, free_h, ({ needs }) => needs[0]!)
  if (shared.size === 0) return byPrinter
  const byReel = mostAlong(
    byDue,
    free_h,
    ({ needs }) => needs.find((need) => shared.has(need)) ?? needs[0]!,
  )
  return Math.min(byPrinter, byReel)
}

const mostAlong = (
  byDue: readonly PrintJob[],
  free_h: Float64Array,
  thingOf: (job: PrintJob) => number,
): number => {
  const along = new Map<number, { now: number; durations: number[] }>()
  let count = 0
  for (const job of byDue) {
    const { duration_h, due_h } = job
    const begin = beginOf(job, free_h)
    if (isLate(job, begin + duration_h)) continue
    const thing = thingOf(job)
    const { now, durations } = along.get(thing) ?? { now: free_h[thing]!, durations: [] }
    durations.push(duration_h)
    count++
    let then = now + duration_h
    if (then > due_h + instant) {
      const longest = Math.max(...durations)
      durations.splice(durations.indexOf(longest), 1)
      then -= longest
      count--
    }
    along.set(thing, { now: then, durations })
  }
  return count
}
