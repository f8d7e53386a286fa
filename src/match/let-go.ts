import type { ReelTaken } from './served-otherwise.ts'
import type { MatchBar, MatchCopy, MatchLock, MatchSlate } from './slate.ts'

/** What a person wished and is not held to. */
export interface LetGo {
  readonly locks: readonly MatchLock[]
  readonly bars: readonly MatchBar[]
}

/** A slate without some of its wishes. */
export const withoutWishes = (slate: MatchSlate, { locks, bars }: LetGo): MatchSlate => ({
  ...slate,
  locks: (slate.locks ?? []).filter((lock) => !locks.includes(lock)),
  barred: (slate.barred ?? []).filter((bar) => !bars.includes(bar)),
})

/**
 * Wishes that may stand in the way of copies, those of the copies alone first: their locks, the reels
 * barred for them, both; then all that is wished of the slate.
 *
 * @param lacking - of the slate, not served
 */
export const wishesInTheWay = (
  { locks = [], barred = [] }: MatchSlate,
  lacking: readonly MatchCopy[],
): readonly LetGo[] => {
  const ids = new Set(lacking.map(({ id }) => id))
  const fits = new Set(lacking.flatMap(({ tasks }) => tasks.flatMap((task) => task.fits)))
  const own = {
    locks: locks.filter(({ copy }) => ids.has(copy)),
    bars: barred.filter(
      ({ reel, copy }) => fits.has(reel) && (copy === undefined || ids.has(copy)),
    ),
  }
  const ways = [{ ...own, bars: [] }, { ...own, locks: [] }, own, { locks, bars: barred }]
  const sizeOf = (way: LetGo): string => `${way.locks.length} ${way.bars.length}`
  return ways.filter(
    (way, place) =>
      way.locks.length + way.bars.length > 0 &&
      // Each holds those before it, or is apart from them.
      !ways.slice(0, place).some((before) => sizeOf(before) === sizeOf(way)),
  )
}

/** Of wishes those that are not kept to: a reel locked to that feeds no part, a barred one that feeds any. */
export const notKept = ({ locks, bars }: LetGo, taken: readonly ReelTaken[]): LetGo => ({
  locks: locks.filter(({ copy, tool, reel }) => {
    const own = taken.filter((each) => each.copy === copy && each.tool === tool)
    return own.length > 0 && own.every((each) => each.reel !== reel)
  }),
  bars: bars.filter(({ reel, copy }) =>
    taken.some((each) => each.reel === reel && (copy === undefined || each.copy === copy)),
  ),
})
