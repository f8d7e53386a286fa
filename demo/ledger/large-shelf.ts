import type { LedgerRecord } from '../../src/contract/index.ts'
import { Keeper, type TrueReel } from './keeper.ts'

const makers = ['Tessamund', 'Ostrelle', 'Brannoc', 'Hallvane', 'Quillmere'] as const
const materials = ['pla', 'petg', 'asa', 'tpu'] as const
const density: Readonly<Record<(typeof materials)[number], number>> = {
  pla: 1.24,
  petg: 1.27,
  asa: 1.07,
  tpu: 1.21,
}
const colours: readonly (readonly [string, string])[] = [
  ['coral', '#e4604e'],
  ['slate', '#5b6770'],
  ['lifebuoy orange', '#e8710a'],
  ['signal-flag blue', '#1f4e8c'],
  ['foam white', '#f2f1ea'],
  ['tar', '#202124'],
  ['oilskin yellow', '#e2b51f'],
  ['starboard green', '#1e7d4f'],
  ['gull grey', '#9aa0a3'],
]
const places = ['long shelf', 'window box', 'dry box', 'under the bench']
const begun = Date.UTC(2025, 0, 11, 9)
const day = 86_400_000

/**
 * A ledger of so many part-used reels that nobody has, four facts and more each, the same at every
 * run: for what has to be quick, or legible, on large shelves.
 */
export const largeShelf = (count: number): readonly LedgerRecord[] => {
  const keeper = new Keeper(count)
  const { dice } = keeper
  keeper.moment(new Date(begun))
  const scale = keeper.row({
    kind: 'scale',
    name: 'kitchen scale',
    step_g: 1,
    repeatability_g: 0.3,
    gain: 0.0005,
  })
  const printers = ['Gull', 'Skiff', 'Tern'].map((name) => ({
    id: keeper.row({ kind: 'printer', name }),
    hidden: {
      feedFactor: dice.normal(1, 0.01),
      startAllowance_mm: dice.between(20, 120),
      tail_mm: 300,
    },
  }))
  const makes = makers.flatMap((maker) =>
    materials.map((material) => ({
      id: keeper.row({ kind: 'make', maker, name: material.toUpperCase(), material }),
      tare_g: dice.between(140, 290),
      linearDensity_gPerM: density[material] * Math.PI * 0.875 ** 2,
    })),
  )
  const ids = new Set<string>()
  while (ids.size < count) ids.add(keeper.newId())
  for (const id of ids) {
    const make = dice.pick(makes)
    const reel: TrueReel = {
      id,
      make: make.id,
      tare_g: make.tare_g + dice.normal(0, 4),
      linearDensity_gPerM: make.linearDensity_gPerM * dice.normal(1, 0.01),
      net_g: dice.normal(1005, 8),
    }
    const weigh = (): void => {
      const reading_g = keeper.reading(reel.tare_g + reel.net_g, { step_g: 1 })
      keeper.say({ kind: 'weighed', reel: reel.id, weighing: { scale, reading_g } })
    }
    const [name, srgb] = dice.pick(colours)
    const came = begun + Math.floor(dice.uniform() * 200) * day
    keeper.moment(new Date(came))
    const place = dice.pick(places)
    keeper.opened(reel, { label_net_g: 1000, place, colour: { name, srgb } })
    weigh()
    const prints = 1 + Math.floor(dice.uniform() * 6)
    for (let print = 1; print <= prints; print++) {
      keeper.moment(new Date(came + print * 11 * day))
      const { id: printer, hidden } = dice.pick(printers)
      const length_mm = Math.round(dice.between(0.02, 0.9 / prints) * 330_000)
      keeper.say({ kind: 'drew', reel: reel.id, printer, length_mm })
      reel.net_g -= keeper.taken(reel, length_mm, hidden)
    }
    if (dice.uniform() < 0.5) weigh()
  }
  return keeper.records()
}
