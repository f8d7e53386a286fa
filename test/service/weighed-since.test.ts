import { expect, test } from 'vitest'
import {
  addRow,
  putRight,
  recordDraw,
  recordOfReel,
  shelfView,
  weigh,
} from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, valueOf } from '../shelf-bench.ts'

// What is dated before a weighing that stands is held against that weighing, not against the moment alone.

const day = (date: number, hour = 12): string =>
  `2026-02-${String(date).padStart(2, '0')}T${hour}:00:00.000Z`

/** Two reels that were weighed when new; a print on the first, and the weighing that agrees with it. */
const weighedAfterPrint = async () => {
  const handed = await bench()
  const add = async (reading_g: number): Promise<string> => {
    const added = await addKittiwake(handed, { at: day(1), grossWhenNew: { reading_g } })
    return added.reels[0]!
  }
  const reel = await add(1250)
  const other = await add(1251)
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  const first = valueOf(
    await recordDraw(handed, { length_mm: 100_000, reels: [{ reel }], at: day(2) }),
  )
  const read = async (of: string, reading_g: number, at: string) =>
    weigh(handed, { reel: of, at, weighing: { reading_g } })
  return { handed, reel, other, drew: first.facts[0]!, read }
}

test('a print of the evening after a weighing is not put before it', async () => {
  const { handed, reel, read } = await weighedAfterPrint()
  expect(valueOf(await read(reel, 952, day(3, 19))).recorded).toBeDefined()
  const late = { length_mm: 100_000, reels: [{ reel }] }
  const refused = await recordDraw(handed, { ...late, at: day(3) })
  expect(codeOf(refused)).toBe('weighed_since')
  expect(refused).toMatchObject({ refusal: { message: expect.stringContaining('952 g') } })
  const long = (await handed.store.facts()).length
  // Told when it was, it goes down, as it does where nothing stands against it, or where it is accepted.
  expect(codeOf(await recordDraw(handed, { ...late, at: day(3, 21) }))).toBe('')
  expect(await handed.store.facts()).toHaveLength(long + 1)
  expect(codeOf(await recordDraw(handed, { ...late, at: day(3), accept: true }))).toBe('')
})

test('a little before it agrees, and is taken', async () => {
  const { handed, reel, read } = await weighedAfterPrint()
  valueOf(await read(reel, 952, day(3, 19)))
  const short = { length_mm: 300, reels: [{ reel }], at: day(3) }
  expect(codeOf(await recordDraw(handed, short))).toBe('')
})

test('a piece cut off before it is held against it as well', async () => {
  const { handed, reel, read } = await weighedAfterPrint()
  valueOf(await read(reel, 952, day(3, 19)))
  const cut = { kind: 'trimmed', mass_g: { value: 300, u: 1 } } as const
  expect(codeOf(await recordOfReel(handed, reel, cut, { at: day(3) }))).toBe('weighed_since')
  expect(codeOf(await recordOfReel(handed, reel, cut, { at: day(4) }))).toBe('')
})

test('a print is not moved to a reel whose weighing knows nothing of it', async () => {
  const { handed, other, drew, read } = await weighedAfterPrint()
  valueOf(await read(other, 1251, day(3)))
  const moved = { fact: drew.id, reason: 'it was the other', reel: other }
  const refused = await putRight(handed, moved)
  expect(codeOf(refused)).toBe('weighed_since')
  // When it was is not in question there.
  expect(refused).not.toMatchObject({
    refusal: { message: expect.stringContaining('say when it was') as string },
  })
  expect(codeOf(await putRight(handed, { ...moved, accept: true }))).toBe('')
  const view = valueOf(await shelfView(handed.store))
  expect(view.standing.voided.size).toBe(1)
})

test('nor taken back where the weighing after it says that it was', async () => {
  const { handed, reel, drew, read } = await weighedAfterPrint()
  valueOf(await read(reel, 952, day(3)))
  expect(codeOf(await putRight(handed, { fact: drew.id, reason: 'it failed' }))).toBe(
    'weighed_since',
  )
})

test('a weighing that surprised before does not stand in the way of what explains it', async () => {
  const { handed, reel, drew } = await weighedAfterPrint()
  const accepted = { reel, at: day(3), accept: true, weighing: { reading_g: 650 } }
  expect(valueOf(await weigh(handed, accepted)).surprise.surprising).toBe(true)
  const forgotten = { length_mm: 100_000, reels: [{ reel }], at: day(2, 15) }
  expect(codeOf(await recordDraw(handed, forgotten))).toBe('')
  expect(drew.kind).toBe('drew')
})
