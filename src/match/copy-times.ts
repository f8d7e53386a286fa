import type { CompiledSlate } from './compiled-slate.ts'
import { instant, isLate, type PrintJob } from './print-job.ts'

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

/**
 * When the copies of a plan are printed: in a sequence, each as soon as its printer and its reels are free,
 * which it has until it ends.
 *
 * @returns by the copy's place
 */
export const copyTimes = (
  { copies, printers, free_h }: CompiledSlate,
  sequence: readonly PrintJob[],
): ReadonlyMap<number, CopyTime> => {
  const free = Array.from(free_h, (at_h): Free => ({ at_h, known: true }))
  const times = new Map<number, CopyTime>()
  for (const job of sequence) {
    const needed = job.needs.map((need) => free[need]!)
    const first = needed.reduce((a, b) => (b.at_h > a.at_h ? b : a))
    const at = needed.indexOf(first)
    const known = needed.every((each) => each.known)
    const ends_h = first.at_h + job.duration_h
    const end = { at_h: ends_h, known: known && copies[job.copy]!.duration_h !== null }
    times.set(job.copy, {
      begins_h: known ? first.at_h : null,
      ends_h: end.known ? ends_h : null,
      late: isLate(job, ends_h),
      waitsFor: first.at_h > needed[0]!.at_h + instant ? job.needs[at]! - printers.length : null,
    })
    for (const need of job.needs) free[need] = end
  }
  return times
}
