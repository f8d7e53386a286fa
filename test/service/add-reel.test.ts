import { expect, test } from 'vitest'
import { idLength, isId } from '../../src/contract/index.ts'
import { addReel, shelfView } from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, valueOf } from '../shelf-bench.ts'

test('a reel of a new make: make and reel are written together', async () => {
  const handed = await bench()
  const { reels, recorded } = await addKittiwake(handed, {
    price: { amount: '21.90', currency: 'EUR' },
    colour: { name: 'tar black' },
  })
  expect(reels).toHaveLength(1)
  expect(isId(reels[0]!, idLength.row)).toBe(true)
  expect(recorded?.rows.map(({ kind }) => kind)).toEqual(['make'])
  expect(recorded?.rows[0]).toMatchObject({ maker: 'Kittiwake', name: 'PLA', material: 'pla' })
  const view = valueOf(await shelfView(handed.store))
  expect(view.cards.get(reels[0]!)?.state).toBe('new')
  // One kilogram by the label, filled a little above it.
  expect(recorded?.reels[0]?.now?.net.value).toBeCloseTo(1005, 0)
  expect(recorded?.reels[0]?.before).toBeUndefined()
})

test.each(['kittiwake pla', 'PLA', ' Kittiwake  PLA '])(
  'a known make is taken by %j',
  async (name) => {
    const handed = await bench()
    await addKittiwake(handed)
    const more = valueOf(await addReel(handed, { make: { name } }))
    expect(more.recorded?.rows).toEqual([])
    // The label of the make holds.
    expect(more.recorded?.facts[0]).toMatchObject({ label_net_g: 1000 })
  },
)

test('telling a known make once more sets nothing up', async () => {
  const handed = await bench()
  await addKittiwake(handed)
  const again = await addKittiwake(handed)
  expect(again.recorded?.rows).toEqual([])
})

test('several alike have an id each', async () => {
  const handed = await bench()
  const { reels, recorded } = await addKittiwake(handed, { count: 40 })
  expect(new Set(reels).size).toBe(40)
  expect(recorded?.facts).toHaveLength(40)
})

test('with a gross mass the first weighing is recorded, and the first scale set up', async () => {
  const handed = await bench()
  const { recorded, weighed } = await addKittiwake(handed, {
    partUsed: true,
    gross: { reading_g: 422 },
  })
  expect(recorded?.facts.map(({ kind }) => kind)).toEqual(['opened', 'weighed'])
  expect(recorded?.rows.map(({ kind }) => kind)).toEqual(['make', 'scale'])
  expect(weighed?.scale).toMatchObject({ isNew: true, scale: { name: 'kitchen scale' } })
  expect(recorded?.reels[0]?.now?.net.value).toBeGreaterThan(120)
  expect(recorded?.reels[0]?.now?.net.value).toBeLessThan(220)
})

test('a first weighing that can not be is not recorded, nor is its reel', async () => {
  const handed = await bench()
  const { recorded, weighed, reels } = await addKittiwake(handed, { gross: { reading_g: 2.77 } })
  expect(recorded).toBeUndefined()
  expect(reels).toEqual([])
  // 2.77 lb is a new kilogram on its carrier.
  expect(weighed?.surprise.causes[0]).toMatchObject({ code: 'pounds' })
  expect(await handed.store.facts()).toEqual([])
  expect(await handed.store.catalogue()).toEqual([])
})

test.each([
  [{ make: { name: 'Gannet PETG' } }, 'make_unknown'],
  [{ make: { name: 'PLA', maker: 'Kittiwake', material: 'PETG' } }, 'make_differs'],
  [{ make: { name: 'PETG', maker: 'Gannet', material: 'unobtainium' } }, 'material_unknown'],
  [{ make: { name: 'PLA' }, count: 0 }, 'count_out_of_range'],
  [{ make: { name: 'PLA' }, count: 2, gross: { reading_g: 9 } }, 'one_reel_on_the_scale'],
  [{ make: { name: 'PLA' }, place: '\u0007' }, 'ledger_record'],
  [{ make: { name: 'PLA' }, label_net_g: 1 }, 'impossible_fact'],
] as const)('%j is refused: %s', async (reel, code) => {
  const handed = await bench()
  await addKittiwake(handed)
  const before = await handed.store.facts()
  expect(codeOf(await addReel(handed, reel))).toBe(code)
  expect(await handed.store.facts()).toEqual(before)
})

test('a weighing when new that is not like those of its make is not recorded unless accepted', async () => {
  const handed = await bench()
  await addKittiwake(handed, { grossWhenNew: { reading_g: 1263 } })
  const before = (await handed.store.facts()).length
  const slip = { grossWhenNew: { reading_g: 1824 } }
  const { recorded, weighed, reels } = await addKittiwake(handed, slip)
  expect([recorded, reels]).toEqual([undefined, []])
  expect(weighed?.surprise.surprising).toBe(true)
  expect(weighed?.surprise.innovation).toBeGreaterThan(500)
  expect(await handed.store.facts()).toHaveLength(before)
  // That very surprise, as a person at a terminal accepts it.
  const shown = await addKittiwake(handed, { ...slip, accept: weighed!.surprise })
  expect(shown.recorded?.facts[0]).toMatchObject({
    kind: 'opened',
    gross_when_new: { reading_g: 1824 },
  })
})

test('one that agrees is recorded with the opening', async () => {
  const handed = await bench()
  await addKittiwake(handed, { grossWhenNew: { reading_g: 1263 } })
  const { recorded } = await addKittiwake(handed, { grossWhenNew: { reading_g: 1284 } })
  expect(recorded?.facts).toMatchObject([{ kind: 'opened', gross_when_new: { reading_g: 1284 } }])
})

test.each([
  ['Kittiwake PLA', 'Kitiwake'],
  ['PETG', 'kitiwake'],
  ['Kittiwake PLA', 'Gannet'],
])('a make %j of %j, whom nobody knows, is refused with the maker meant', async (name, maker) => {
  const handed = await bench()
  await addKittiwake(handed)
  const refused = await addReel(handed, { make: { name, maker, label_net_g: 1000 } })
  expect(refused).toMatchObject({
    ok: false,
    refusal: { code: 'maker_unknown', expected: 'Kittiwake' },
  })
})

test('a maker of quite another name is new', async () => {
  const handed = await bench()
  await addKittiwake(handed)
  const more = valueOf(
    await addReel(handed, { make: { name: 'PLA', maker: 'Gannet', label_net_g: 750 } }),
  )
  expect(more.recorded?.rows[0]).toMatchObject({ maker: 'Gannet', name: 'PLA' })
})
