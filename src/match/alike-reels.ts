import type { CompiledSlate } from './compiled-slate.ts'

/**
 * For each reel, by place, a key that it shares with those that nothing tells apart from it but what they
 * fit: sealed ones of which the same is known.
 */
export const alikeReels = ({ reels, printers, earlier }: CompiledSlate): readonly string[] => {
  const chosen = new Set([...earlier.values()].flatMap((list) => list.map(({ reel }) => reel)))
  const loaded = new Set(printers.flatMap((printer) => Object.values(printer.loaded ?? {})))
  return reels.map(({ id, sealed, belief }, place) => {
    if (!sealed || loaded.has(id) || chosen.has(place)) return id
    const { joint, ...forms } = belief
    return JSON.stringify([[...joint.mean], [...joint.covariance], joint.names, forms])
  })
}
