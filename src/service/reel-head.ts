import type { ReelHeadJson } from '../contract/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import { diameterOfReel, makeOfReel } from './reel-card.ts'

/** A reel on the wire. */
export const reelHead = (card: ReelCard): ReelHeadJson => ({
  id: card.id,
  make: card.make === undefined ? null : makeOfReel(card),
  material: card.make?.material ?? null,
  material_name: card.materialName ?? null,
  diameter_mm: diameterOfReel(card),
  colour: card.colour?.name ?? null,
  srgb: card.colour?.srgb ?? null,
  lot: card.lot ?? null,
  place: card.place ?? null,
  state: card.state,
})
