import type { ListedReelJson } from '../../contract/index.ts'
import type { Clearing } from './use-clearing.ts'

/** How likely a reel is to finish the print at hand. */
export type Likely = 'any' | 'maybe' | 'enough'

/** What is chosen beside the words typed; null for all. */
export interface Narrowing {
  readonly material: string | null
  /** The colour's name. */
  readonly colour: string | null
  readonly place: string | null
  readonly likely: Likely
}

/** Nothing chosen. */
export const wide: Narrowing = { material: null, colour: null, place: null, likely: 'any' }

/** Reels that have what is chosen, in the order given. */
export const narrowReels = (
  reels: readonly ListedReelJson[],
  { material, colour, place, likely }: Narrowing,
  clearing: ReadonlyMap<string, Clearing> | null,
): readonly ListedReelJson[] =>
  reels.filter(({ reel }) => {
    if (material !== null && reel.material !== material) return false
    if (colour !== null && reel.colour !== colour) return false
    if (place !== null && reel.place !== place) return false
    if (likely === 'any' || clearing === null) return true
    const one = clearing.get(reel.id)
    if (one === undefined) return false
    return likely === 'enough' ? one.verdict === 'enough' : one.verdict !== 'short'
  })
