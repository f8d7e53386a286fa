import type { ReelListJson } from '../contract/index.ts'
import { contradictedToJson } from './contradicted-to-json.ts'
import type { ListedReel } from './list-reels.ts'
import { reelHead } from './reel-head.ts'

/** The reels of the shelf on the wire. */
export const reelListToJson = (reels: readonly ListedReel[]): ReelListJson => ({
  reels: reels.map(({ card, wound, now, contradicted }) => ({
    reel: reelHead(card),
    net_g: now === undefined ? null : { value: now.net.value, u: now.net.u },
    length_mm: now === undefined ? null : { value: now.length.value, u: now.length.u },
    weighed_at: card.lastWeighing?.at ?? null,
    wound,
    contradicted: contradicted === undefined ? null : contradictedToJson(contradicted),
  })),
})
