import type { CompiledCopy, CompiledSlate, Piece } from './compiled-slate.ts'
import type { Load, LoadJudge } from './load-judge.ts'
import type { MissingFilament } from './match-plan.ts'

/**
 * What the tools of an unserved copy are short of, beside all that the reels are asked to do.
 *
 * @param loads - of each reel, by place
 * @returns one entry for each tool that no single reel is left for; where every tool has one, and only
 *   together they do not go, all tools
 */
export const missingOf = (
  { reels }: CompiledSlate,
  judges: readonly LoadJudge[],
  loads: readonly Load[],
  { tasks }: CompiledCopy,
): readonly MissingFilament[] => {
  const each = tasks.map(({ tool, whole }): MissingFilament => {
    let nearest: { readonly piece: Piece; readonly reel: number; readonly short: number } | null =
      null
    for (const piece of whole.values()) {
      for (const reel of piece.reels) {
        const { value, u } = judges[reel]!.needed(piece)
        // No reel holds less than nothing, whatever its figures leave open.
        const short = Math.min(judges[reel]!.short([...loads[reel]!, piece]), value + 2 * u)
        if (!nearest || short < nearest.short) nearest = { piece, reel, short }
      }
    }
    if (!nearest) return { tool, needed: null, short_g: null, nearest: null, isBusy: false }
    return {
      tool,
      needed: judges[nearest.reel]!.needed(nearest.piece),
      short_g: nearest.short,
      nearest: reels[nearest.reel]!.id,
      isBusy: loads[nearest.reel]!.length > 0,
    }
  })
  const short = each.filter(({ short_g }) => short_g === null || short_g > 0)
  return short.length > 0 ? short : each
}
