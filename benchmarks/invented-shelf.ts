import type { ShelfCatalogue, ShelfFact } from '../src/estimate/index.ts'
import { kitchenScale } from '../src/filament/index.ts'
import { grams, millimetres } from '../src/units/index.ts'

const factsOfReel = 100

/**
 * A shelf with facts as a bench would write them: true masses with the errors that the model speaks of.
 * A reel has 100 facts: it is opened, then fed 80 times with 19 weighings between, a day apart. One
 * make in four is of a material that takes up water.
 */
export function inventedShelf(reelCount: number): {
  catalogue: ShelfCatalogue
  facts: ShelfFact[]
} {
  const random = seeded(reelCount)
  const makes = Array.from({ length: Math.max(1, reelCount / 50) }, (_, i) => ({
    id: `make ${i}`,
    material: i % 4 === 0 ? 'PLA' : 'PETG',
  }))
  const printers = Array.from({ length: 40 }, (_, i) => ({ id: `printer ${i}` }))
  const scales = Array.from({ length: 5 }, (_, i) => ({ id: `scale ${i}`, scale: kitchenScale }))
  const reels = Array.from({ length: reelCount }, (_, i) => ({
    id: `reel ${i}`,
    make: `make ${i % makes.length}`,
  }))
  const facts: ShelfFact[] = []
  const left = reels.map(() => 990 + 30 * random())
  for (let at = 0; at < factsOfReel; at++) {
    for (const [i, { id: reel }] of reels.entries()) {
      const fact = { id: `${i}-${at}`, at, reel }
      if (at === 0) facts.push({ ...fact, kind: 'opened', labelNet: grams(1000) })
      else if (at % 5 === 0) {
        const water = (i % makes.length) % 4 === 0 ? 0.004 * (1 - Math.exp(-at / 20)) : 0
        const reading = grams(Math.round(left[i]! * (1 + water) + 244.5 + random()))
        facts.push({ ...fact, kind: 'weighed', scale: `scale ${i % 5}`, reading })
      } else {
        const length = millimetres(500 + 5500 * random())
        const printer = `printer ${(i + (at % 3)) % printers.length}`
        facts.push({ ...fact, kind: 'drew', printer, length })
        left[i]! -= 0.00298 * (length + 50)
      }
    }
  }
  return { catalogue: { makes, printers, scales, reels }, facts }
}

/** Uniform numbers, 0 ≤ x < 1: mulberry32 (Tommy Ettinger, public domain, from memory). */
function seeded(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}
