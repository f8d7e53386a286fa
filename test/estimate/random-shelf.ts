import type { SeededRandom } from '../../demo/seeded-random.ts'
import type { ShelfCatalogue, ShelfFact } from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import {
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  measured,
  millimetres,
} from '../../src/units/index.ts'

const times = (n: number, make: (i: number) => void): void => {
  for (let i = 0; i < n; i++) make(i)
}

const list = <T>(n: number, one: (i: number) => T): T[] =>
  Array.from({ length: n }, (_, i) => one(i))

/** A small shelf with facts of every kind, readings not even plausible: the algebra must hold. */
export const randomShelf = (
  random: SeededRandom,
): { catalogue: ShelfCatalogue; facts: ShelfFact[] } => {
  const upTo = (n: number): number => 1 + Math.floor(random.uniform() * n)
  const makes = list(upTo(3), (i) => ({
    id: `make ${i}`,
    ...random.pick([
      {},
      { material: 'PLA' },
      { material: 'PETG', labelNet: grams(750) },
      { material: 'of their own', density: measured(gramsPerCubicCentimetre(1.1), 0.02) },
      { material: 'PA6' },
      {
        material: 'of their own',
        density: measured(gramsPerCubicCentimetre(1.1)),
        waterAtRest: measured(0.02, 0.005),
      },
    ]),
    ...random.pick([{}, { carrier: 'cardboard' as const }]),
  }))
  const printers = list(upTo(3), (i) => ({
    id: `printer ${i}`,
    ...random.pick([{}, { feedFactor: measured(0.99, 0.02) }, { feedFactor: measured(1) }]),
  }))
  const scales = list(upTo(2), (i) => ({
    id: `scale ${i}`,
    scale: { ...kitchenScale, gain: random.pick([0, 0.001, 0.01]) },
  }))
  const reels = list(upTo(5), (i) => ({ id: `reel ${i}`, make: random.pick(makes).id }))
  const facts: ShelfFact[] = []
  let clock = 0
  const next = (): { id: string; at: number } => {
    clock++
    return { id: `fact ${clock}`, at: clock + 0.9 * random.uniform() }
  }
  const weighing = (low: number, high: number) => ({
    scale: random.pick(scales).id,
    reading: grams(Math.round(random.between(low, high))),
    ...random.pick([{}, { u: 2 }, { extra: measured(grams(30), 0.5) }]),
  })
  for (const { id: reel } of reels) {
    if (random.uniform() < 0.2) continue
    facts.push({
      kind: 'opened',
      ...next(),
      reel,
      ...random.pick([{}, { labelNet: grams(1000) }, { labelNet: grams(1000), partUsed: true }]),
      ...random.pick([{}, { grossWhenNew: weighing(1150, 1350) }]),
    })
  }
  times(upTo(30), () => {
    const { id: reel, make } = random.pick(reels)
    const dice = random.uniform()
    if (dice < 0.35) {
      const printer = random.pick(printers).id
      const length = millimetres(random.between(0, 60_000))
      const part = random.pick([{}, { share: measured(0.4, 0.02) }, { share: measured(0.7) }])
      const more = random.uniform() < 0.1 ? { afterUnrecorded: true as const } : {}
      facts.push({ kind: 'drew', ...next(), reel, printer, length, ...part, ...more })
    } else if (dice < 0.6) {
      const more = random.uniform() < 0.1 ? { afterUnrecorded: true as const } : {}
      facts.push({ kind: 'weighed', ...next(), reel, ...weighing(300, 1300), ...more })
    } else if (dice < 0.7) {
      const own = random.pick([{}, { reel }])
      facts.push({ kind: 'carrier-weighed', ...next(), make, ...own, ...weighing(180, 280) })
    } else if (dice < 0.78) {
      const what = random.pick([
        { mass: measured(grams(12), 0.5) },
        { length: measured(millimetres(3000), 50) },
      ])
      const more = random.uniform() < 0.2 ? { afterUnrecorded: true as const } : {}
      facts.push({ kind: 'trimmed', ...next(), reel, ...what, ...more })
    } else if (dice < 0.8) {
      facts.push({ kind: 'emptied', ...next(), reel })
    } else if (dice < 0.83) {
      const left = random.pick([{}, { remaining: measured(0.001, 0.0005) }])
      facts.push({ kind: 'dried', ...next(), reel, ...left })
    } else if (dice < 0.86) {
      facts.push({ kind: 'moved', ...next(), reel, air: random.pick(['room', 'dry']) })
    } else if (dice < 0.89) {
      const tail = random.pick([{}, { tail: measured(millimetres(800), 20) }])
      const more = random.uniform() < 0.2 ? { afterUnrecorded: true as const } : {}
      facts.push({ kind: 'ran-dry', ...next(), reel, ...tail, ...more })
    } else if (dice < 0.96) {
      const d = measured(millimetres(random.between(1.7, 1.8)), 0.005)
      const what = random.pick([
        { calipers: { places: [[d, d] as const] } },
        { density: measured(gramsPerCubicCentimetre(1.25), 0.01) },
        { linearDensity: measured(gramsPerMetre(2.95), 0.02) },
        { cutLength: { length: measured(millimetres(2000), 2), weighing: weighing(5, 7) } },
        {
          winding: {
            hub: measured(millimetres(80), 1),
            outer: measured(millimetres(random.between(90, 190)), 1),
            width: measured(millimetres(55), 0.5),
          },
        },
      ])
      facts.push({ kind: 'measured', ...next(), reel, ...what })
    } else {
      const what = random.pick([
        { density: measured(gramsPerCubicCentimetre(1.24)) },
        { tare: measured(grams(230), 5), density: measured(gramsPerCubicCentimetre(1.27), 0.02) },
      ])
      facts.push({ kind: 'data-sheet', ...next(), make, ...what })
    }
  })
  return { catalogue: { makes, printers, scales, reels }, facts }
}
