import type { CompiledCopy, CompiledSlate, Piece } from './compiled-slate.ts'
import type { Load, LoadJudge } from './load-judge.ts'
import type { MissingFilament } from './match-plan.ts'

/** What is missing of each unserved copy; copies of one print lack the same, and are asked about once. */
export const missingOfEach = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  loads: readonly Load[],
): ((copy: CompiledCopy) => readonly MissingFilament[]) => {
  const known = new Map<string, readonly MissingFilament[]>()
  return (copy) => {
    const alike = JSON.stringify(
      copy.tasks.map(({ tool, whole, reels }) => [
        tool,
        reels,
        [...whole].map(([printer, { lengths }]) => [printer, lengths]),
      ]),
    )
    const found = known.get(alike) ?? missingOf(slate, judges, loads, copy)
    known.set(alike, found)
    return found
  }
}

/**
 * What the tools of an unserved copy are short of, beside all that the reels are asked to do.
 *
 * @param loads - of each reel, by place
 * @returns one entry for each tool that no single reel is left for; where every tool has one, and only
 *   together they do not go, all tools
 */
const missingOf = (
  { reels, running }: CompiledSlate,
  judges: readonly LoadJudge[],
  loads: readonly Load[],
  { tasks }: CompiledCopy,
): readonly MissingFilament[] => {
  const each = tasks.map(({ tool, whole, reels: may }): MissingFilament => {
    let nearest: { readonly piece: Piece; readonly reel: number; readonly short: number } | null =
      null
    for (const piece of whole.values()) {
      for (const reel of may) {
        const { value, u } = judges[reel]!.needed(piece)
        // No reel holds less than nothing, whatever its figures leave open.
        const most = Math.min(nearest?.short ?? Infinity, value + 2 * u)
        const short = Math.min(judges[reel]!.short([...loads[reel]!, piece], most), value + 2 * u)
        if (!nearest || short < nearest.short) nearest = { piece, reel, short }
      }
    }
    if (!nearest) return { tool, needed: null, short_g: null, nearest: null, isBusy: false }
    return {
      tool,
      needed: judges[nearest.reel]!.needed(nearest.piece),
      short_g: nearest.short,
      nearest: reels[nearest.reel]!.id,
      isBusy: loads[nearest.reel]!.length > 0 || running.has(nearest.reel),
    }
  })
  const short = each.filter(({ short_g }) => short_g === null || short_g > 0)
  return short.length > 0 ? short : each
}
