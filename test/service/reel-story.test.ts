import { expect, test } from 'vitest'
import {
  addRow,
  changeRow,
  listReels,
  measureReel,
  reelListToJson,
  reelStory,
  shelfView,
  weigh,
} from '../../src/service/index.ts'
import { addKittiwake, bench, valueOf } from '../shelf-bench.ts'

test('as known at a moment: the facts as they were then, the catalogue as it is now', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { label_net_g: 1000 })
  const reel = reels[0]!
  const knownAt = new Date(handed.now()).toISOString()
  const grams = async (then?: string): Promise<number> => {
    const view = valueOf(await shelfView(handed.store))
    const { known } = valueOf(reelStory(view, reel, then === undefined ? {} : { knownAt: then }))
    return known!.linearDensity.value
  }
  const before = await grams()
  valueOf(await weigh(handed, { reel, weighing: { reading_g: 1290 } }))
  const view = valueOf(await shelfView(handed.store))
  const { card } = valueOf(reelStory(view, reel, { knownAt }))
  expect(card.facts.map(({ fact }) => fact.kind)).toEqual(['opened'])
  expect(await grams(knownAt)).toBeCloseTo(before, 12)
  // Of 2.85 mm now: nobody can say any more what it was then.
  valueOf(await changeRow(handed, 'make', 'Kittiwake PLA', { nominal_diameter_mm: 2.85 }))
  expect(await grams(knownAt)).toBeCloseTo(before * (2.85 / 1.75) ** 2, 1)
})

test('density and diameter of its filament are told always, with what they rest on', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 2, label_net_g: 1000 })
  const [reel, other] = reels as [string, string]
  const told = async (id: string) => {
    const { known } = valueOf(reelStory(valueOf(await shelfView(handed.store)), id, {}))
    return Object.fromEntries(known!.working!.rests.map((rest) => [rest.id, rest]))
  }
  const usual = await told(reel)
  expect(usual['density']).toMatchObject({ guessed: true, on: 'guessed: density of PLA' })
  expect(usual['diameter']).toMatchObject({ guessed: true })
  expect(usual['diameter']?.value.value).toBeCloseTo(1.75, 2)

  const density_g_per_cm3 = { value: 1.3, u: 0.002 }
  valueOf(await measureReel(handed, reel, { density_g_per_cm3 }, { accept: true }))
  const places = [1.72, 1.73, 1.72, 1.71].map((one) => [one, one] as const)
  const calipers = { places_mm: places }
  valueOf(await measureReel(handed, reel, { calipers }, { accept: true }))
  const seen = await told(reel)
  expect(seen['density']).toMatchObject({ guessed: false, on: 'given for it' })
  expect(seen['density']?.value.value).toBeCloseTo(1.3, 2)
  expect(seen['diameter']).toMatchObject({ guessed: false, on: 'calipers' })
  expect(seen['diameter']?.value.value).toBeCloseTo(1.72, 2)
  expect(seen['diameter']?.value.u).toBeLessThan(0.6 * (usual['diameter']?.value.u ?? 0))
  // A metre of it weighs what both say.
  const { value: across } = seen['diameter']!.value
  expect(seen['linear_density']?.value.value).toBeCloseTo(
    (Math.PI / 4) * across ** 2 * seen['density']!.value.value,
    1,
  )
  expect((await told(other))['density']).toMatchObject({
    guessed: false,
    on: 'given for it, on another reel of its make',
  })
})

test('a metre that is known says little of the density, and it is told as usual', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { label_net_g: 1000 })
  const reel = reels[0]!
  const perMetre = { linear_density_g_per_m: { value: 2.98, u: 0.002 } }
  valueOf(await measureReel(handed, reel, perMetre, { accept: true }))
  const { known } = valueOf(reelStory(valueOf(await shelfView(handed.store)), reel, {}))
  expect(known!.assumed.map(({ id }) => id)).not.toContain('density')
  expect(known!.working!.rests.find(({ id }) => id === 'density')).toMatchObject({
    guessed: true,
    on: 'guessed: usual for its material',
  })
})

const winding = (outer: number) => ({
  winding: {
    hub_mm: { value: 104, u: 1 },
    outer_mm: { value: outer, u: 1 },
    width_mm: { value: 98, u: 1 },
  },
})

test('what a drawing to scale needs is told: its label, its density, its winding as measured last', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 2, label_net_g: 3000 })
  const [reel, other] = reels as [string, string]
  const story = async (id: string) =>
    valueOf(reelStory(valueOf(await shelfView(handed.store)), id, {}))
  const { wound } = await story(reel)
  expect(wound).toEqual({
    label_g: 3000,
    density_g_per_cm3: expect.closeTo(1.24, 2),
    measured: null,
  })
  valueOf(await measureReel(handed, reel, winding(235), { accept: true }))
  valueOf(await measureReel(handed, reel, winding(232), { accept: true }))
  const density_g_per_cm3 = { value: 1.3, u: 0.002 }
  valueOf(await measureReel(handed, reel, { density_g_per_cm3 }, { accept: true }))
  const seen = await story(reel)
  expect(seen.wound.measured).toEqual({ hub_mm: 104, outer_mm: 232, width_mm: 98 })
  // As the working of its figures has it, here and on another reel of its make.
  for (const { wound: one, known } of [seen, await story(other)]) {
    const rest = known!.working!.rests.find(({ id }) => id === 'density')
    expect(one.density_g_per_cm3).toBeCloseTo(rest!.value.value, 5)
  }
  const view = valueOf(await shelfView(handed.store))
  const listed = reelListToJson(listReels(view, () => true, false)).reels
  expect(listed.find((one) => one.reel.id === reel)?.wound).toEqual(seen.wound)
})

test('a material of one’s own goes by its name, and a density told of it is no guess', async () => {
  const handed = await bench()
  const density_g_per_cm3 = { value: 1.15, u: 0.02 }
  valueOf(await addRow(handed, 'material', { name: 'Seaglass blend', density_g_per_cm3 }))
  valueOf(await addRow(handed, 'material', { name: 'Driftwood' }))
  const reelOf = async (material: string): Promise<string> => {
    const make = { name: `Gannet ${material}`, maker: 'Gannet', material }
    return (await addKittiwake(handed, { make })).reels[0]!
  }
  const blend = await reelOf('Seaglass blend')
  const wood = await reelOf('Driftwood')
  const pla = await reelOf('PLA')
  const view = valueOf(await shelfView(handed.store))
  const { reels } = reelListToJson(listReels(view, () => true, false))
  expect(Object.fromEntries(reels.map(({ reel }) => [reel.id, reel.material_name]))).toEqual({
    [blend]: 'Seaglass blend',
    [wood]: 'Driftwood',
    [pla]: 'PLA',
  })
  const told = (id: string) => {
    const { known } = valueOf(reelStory(view, id, {}))
    const { assumed, working } = known!
    const rests = new Map(working!.rests.map((rest) => [rest.id, rest]))
    return { assumed: assumed.map((one) => one.id), rests }
  }
  const seen = told(blend)
  expect(seen.assumed).not.toContain('density')
  expect(seen.rests.get('density')).toMatchObject({
    guessed: false,
    on: 'what is told of its material',
  })
  expect(seen.rests.get('density')?.value.value).toBeCloseTo(1.15, 2)
  expect(seen.rests.get('linear_density')).toMatchObject({
    guessed: true,
    on: 'the density told of its material, diameter guessed',
  })
  // Of one whose density nobody told it is a guess, as before.
  expect(told(wood).assumed).toContain('density')
  expect(told(wood).rests.get('density')?.guessed).toBe(true)
  expect(told(pla).rests.get('density')?.on).toBe('guessed: density of PLA')
})
