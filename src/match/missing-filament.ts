import type { CompiledCopy, CompiledSlate } from './compiled-slate.ts'
import type { Load, LoadJudge } from './load-judge.ts'
import type { MissingFilament } from './match-plan.ts'
import { type NearestReels, nearestReels, type Standing } from './nearest-reels.ts'

/** What is missing of each unserved copy; copies of one print lack the same, and are asked about once. */
export const missingOfEach = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  loads: readonly Load[],
): ((copy: CompiledCopy) => readonly MissingFilament[]) => {
  const known = new Map<string, readonly MissingFilament[]>()
  return (copy) => {
    const alike = JSON.stringify(
      copy.tasks.map(({ tool, whole, reels, locks, changes }) => [
        tool,
        reels,
        locks,
        changes,
        [...whole].map(([printer, { lengths }]) => [printer, lengths]),
      ]),
    )
    const found = known.get(alike) ?? missingOf(slate, { judges, loads }, copy)
    known.set(alike, found)
    return found
  }
}

/**
 * What the tools of an unserved copy are short of, beside all that the reels are asked to do.
 *
 * @param loads - of each reel, by place
 * @returns one entry for each tool that no reel is left for, nor several where it may be changed; where every
 *   tool has some, and only together they do not go, the one that comes nearest with the others' taken; where none
 *   has another, all tools
 */
const missingOf = (
  slate: CompiledSlate,
  standing: Standing,
  { tasks }: CompiledCopy,
): readonly MissingFilament[] => {
  const { judges, loads } = standing
  const { reels, running } = slate
  const lackOf = (
    task: CompiledCopy['tasks'][number],
    nearest: NearestReels | null,
  ): MissingFilament => {
    const { tool, whole } = task
    const [piece] = whole.values()
    if (!nearest || !piece) {
      return { tool, needed: null, short_g: null, before: [], nearest: null, isBusy: false }
    }
    const { before, reel, short } = nearest
    return {
      tool,
      needed: judges[reel]!.needed(piece),
      short_g: short,
      before: before.map((part) => ({ reel: reels[part.reel]!.id, untilLayer: part.untilLayer })),
      nearest: reels[reel]!.id,
      isBusy: loads[reel]!.length > 0 || running.has(reel),
    }
  }
  const nearest = tasks.map((task) => nearestReels(slate, standing, task))
  const each = tasks.map((task, i) => lackOf(task, nearest[i]!))
  const lacking = each.filter(({ short_g }) => short_g === null || short_g > 0)
  if (lacking.length > 0) return lacking
  const beside = tasks.flatMap((task, i) => {
    const others = new Set(nearest.flatMap((of, k) => (k === i ? [] : reelsOf(of))))
    const next = nearestReels(slate, standing, task, others)
    return next === null || next.short === 0 ? [] : [lackOf(task, next)]
  })
  const [least] = beside.toSorted((a, b) => a.short_g! - b.short_g!)
  return tasks.length > 1 && least ? [least] : each
}

const reelsOf = (of: NearestReels | null): readonly number[] =>
  of === null ? [] : [...of.before.map((part) => part.reel), of.reel]
