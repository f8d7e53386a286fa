import { nodesOf } from './change-cuts.ts'
import type { Choices } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'
import type { Clash, LoadProblem } from './load-problem.ts'
import { mostInTime } from './most-in-time.ts'
import type { PrintJob } from './print-job.ts'

/** What a problem's groups and kinds stand for: places of copies and reels. */
interface Places {
  readonly groups: readonly (readonly number[])[]
  readonly kinds: readonly (readonly number[])[]
  readonly withParts: boolean
}

/**
 * Why jobs can not all be in time: as few of them as can not either, with as few of the reels they share.
 *
 * @param choices - that the jobs are of
 * @returns null where they can; `unknown` where that was not found out
 */
export const clashOf = (
  slate: CompiledSlate,
  { items }: LoadProblem,
  { groups, kinds, withParts }: Places,
  choices: Choices,
  jobs: readonly PrintJob[],
): Clash | 'unknown' | null => {
  let free_h = slate.free_h
  const printers = slate.printers.length
  const { jobs: all, isMost } = mostInTime(jobs, free_h, { asked: jobs.length })
  if (all.length === jobs.length) return null
  if (!isMost) return 'unknown'
  let few = jobs
  // Those due last are spared first.
  for (const job of jobs.toSorted((a, b) => b.due_h - a.due_h)) {
    const rest = few.filter((each) => each !== job)
    if (isImpossible(rest, free_h)) few = rest
  }
  // That a reel is busy at first may be no part of it.
  const atOnce = free_h.map((at, need) => (need < printers ? at : 0))
  if (isImpossible(few, atOnce)) free_h = atOnce
  for (const [i, { needs }] of few.entries()) {
    for (const reel of needs.slice(1)) {
      const without = { ...few[i]!, needs: few[i]!.needs.filter((need) => need !== reel) }
      const rest = few.with(i, without)
      if (isImpossible(rest, free_h)) few = rest
    }
  }
  const groupOf = new Map(groups.flatMap((places, group) => places.map((copy) => [copy, group])))
  const sharing = Map.groupBy(
    few.flatMap((job) => job.needs.slice(1).map((reel) => ({ job, reel: reel - printers }))),
    ({ reel }) => reel,
  )
  const itemOf = ({ copy }: PrintJob, reel: number): number => {
    const { servings } = choices[copy]!
    const serving = servings.find((each) => each.reel === reel)!
    const { piece } = serving
    const [from, to] = nodesOf(slate, servings, serving, withParts)
    const task = slate.copies[copy]!.tasks.findIndex(({ place }) => place === piece.task)
    return items.findIndex(
      (item) =>
        item.inTime &&
        item.group === groupOf.get(copy) &&
        item.task === task &&
        item.printer === piece.printer &&
        item.from === from &&
        item.to === to,
    )
  }
  const loads = [...sharing].map(([reel, own]) => ({
    items: own.map(({ job }) => itemOf(job, reel)).toSorted((a, b) => a - b),
    kinds: kinds.map(([one]) => free_h[printers + one!]! >= free_h[printers + reel]!),
  }))
  const alone = few.filter(({ needs }) => needs.length === 1)
  return {
    loads,
    copies: alone.map(({ copy, needs }) => ({ group: groupOf.get(copy)!, printer: needs[0]! })),
  }
}

const isImpossible = (jobs: readonly PrintJob[], free_h: Float64Array): boolean => {
  const { jobs: done, isMost } = mostInTime(jobs, free_h, { asked: jobs.length })
  return isMost && done.length < jobs.length
}
