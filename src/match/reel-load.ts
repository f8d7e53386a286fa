import { alikeReels } from './alike-reels.ts'
import type { CompiledSlate, Piece } from './compiled-slate.ts'
import type { Load, LoadJudge } from './load-judge.ts'
import { type LoadCost, loadCost } from './plan-value.ts'

/** What a reel is asked to do so far, and what comes of it. */
export interface ReelLoad {
  readonly load: Load
  readonly cost: LoadCost
  /** What more may weigh at most, g; see `LoadJudge.capacity`. */
  readonly room: number
}

/** Puts loads together piece by piece, the cheapest test first. */
export interface LoadMaker {
  /** A load that is known to be safe. */
  readonly made: (reel: number, load: Load) => ReelLoad
  /** A piece more; null where it would not be safe. */
  readonly grown: (reel: number, before: ReelLoad, piece: Piece) => ReelLoad | null
  /** For each reel, by place, a key that those share that are alike; see `alikeReels`. */
  readonly alike: readonly string[]
}

export const loadMaker = (slate: CompiledSlate, judges: readonly LoadJudge[]): LoadMaker => {
  const weights = judges.map(() => new Map<Piece, number>())
  const weightOf = (reel: number, piece: Piece): number => {
    const known = weights[reel]!.get(piece)
    if (known !== undefined) return known
    const weight = judges[reel]!.weight(piece)
    weights[reel]!.set(piece, weight)
    return weight
  }
  const withCost = (reel: number, load: Load, room: number): ReelLoad => ({
    load,
    room,
    cost: loadCost(slate, judges[reel]!, reel, load),
  })
  const grown = (reel: number, before: ReelLoad, piece: Piece): ReelLoad | null => {
    const room = before.room - weightOf(reel, piece)
    if (room < 0) return null
    const load = [...before.load, piece]
    return judges[reel]!.isSafe(load) ? withCost(reel, load, room) : null
  }
  // Most reels do nothing most of the time, and are asked again and again whether they could do one thing.
  const singles = judges.map(() => new Map<Piece, ReelLoad | null>())
  return {
    made: (reel, load) => {
      const weight = load.reduce((sum, piece) => sum + weightOf(reel, piece), 0)
      return withCost(reel, load, judges[reel]!.capacity - weight)
    },
    grown: (reel, before, piece) => {
      if (before.load.length > 0) return grown(reel, before, piece)
      const known = singles[reel]!.get(piece)
      if (known !== undefined) return known
      const found = grown(reel, before, piece)
      singles[reel]!.set(piece, found)
      return found
    },
    alike: alikeReels(slate),
  }
}
