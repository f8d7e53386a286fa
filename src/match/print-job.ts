import type { Choices } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'

/** A served copy as the clock sees it: it has its printer and all its reels from its beginning to its end. */
export interface PrintJob {
  /** Place. */
  readonly copy: number
  /** What it has meanwhile: places in `CompiledSlate.free_h`, the printer first. */
  readonly needs: readonly number[]
  readonly duration_h: number
  /** Infinity for none. */
  readonly due_h: number
}

/** Less than this is no time, h. */
export const instant = 1e-9

/** The served copies of some choices. */
export const jobsOf = (slate: CompiledSlate, choices: Choices): PrintJob[] =>
  choices.flatMap((choice, copy) => {
    if (!choice) return []
    const reels = choice.servings.map(({ reel }) => reel)
    return [jobOf(slate, copy, choice.printer, reels)]
  })

/** A copy on a printer with some reels, by places. */
export const jobOf = (
  { copies, printers }: CompiledSlate,
  copy: number,
  printer: number,
  reels: readonly number[],
): PrintJob => {
  const { duration_h, due_h } = copies[copy]!
  const own = new Set(reels.map((reel) => printers.length + reel))
  return { copy, needs: [printer, ...own], duration_h: duration_h ?? 0, due_h: due_h ?? Infinity }
}

/** When a job can begin. */
export const beginOf = ({ needs }: PrintJob, free_h: Float64Array): number => {
  let begin = 0
  for (const need of needs) begin = Math.max(begin, free_h[need]!)
  return begin
}

/** Does a job as soon as what it needs is free, which is taken until its end: `free_h` is changed; its end. */
export const doNext = (job: PrintJob, free_h: Float64Array): number => {
  const end = beginOf(job, free_h) + job.duration_h
  for (const need of job.needs) free_h[need] = end
  return end
}

export const isLate = ({ due_h }: PrintJob, end_h: number): boolean => end_h > due_h + instant

/** How many are late when jobs are done in a sequence, each as soon as what it needs is free. */
export const lateInSequence = (jobs: readonly PrintJob[], free_h: Float64Array): number => {
  const free = free_h.slice()
  return jobs.reduce((late, job) => late + Number(isLate(job, doNext(job, free))), 0)
}
