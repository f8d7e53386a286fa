import { expect, test } from 'vitest'
import { measureReel, recordOfReel, stateOfMake } from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, valueOf } from '../shelf-bench.ts'

const oneReel = async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed)
  return { handed, reel: reels[0]! }
}

test('trimmed filament is off the reel', async () => {
  const { handed, reel } = await oneReel()
  const event = { kind: 'trimmed', mass_g: { value: 12, u: 0.5 } } as const
  const { before, now } = valueOf(await recordOfReel(handed, reel, event)).reels[0]!
  expect(before!.net.value - now!.net.value).toBeCloseTo(12, 1)
})

test('an emptied reel holds nothing, and nothing more comes off it', async () => {
  const { handed, reel } = await oneReel()
  const { now } = valueOf(await recordOfReel(handed, reel, { kind: 'emptied' })).reels[0]!
  expect(now!.net.value).toBeCloseTo(0, 6)
  const trimmed = { kind: 'trimmed', mass_g: { value: 12, u: 0 } } as const
  expect(codeOf(await recordOfReel(handed, reel, trimmed))).toBe('reel_empty')
})

test('a full reel that ran dry is not recorded unless it is accepted', async () => {
  const { handed, reel } = await oneReel()
  const event = { kind: 'ran-dry' } as const
  expect(codeOf(await recordOfReel(handed, reel, event))).toBe('run_dry_surprising')
  const { now } = valueOf(await recordOfReel(handed, reel, event, { accept: true })).reels[0]!
  expect(now!.net.value).toBeLessThan(5)
})

test('a retired reel is left alone', async () => {
  const { handed, reel } = await oneReel()
  valueOf(await recordOfReel(handed, reel, { kind: 'retired', reason: 'given away' }))
  expect(codeOf(await recordOfReel(handed, reel, { kind: 'moved', place: 'attic' }))).toBe(
    'reel_retired',
  )
})

test('when it happened and what was noted stand in the fact', async () => {
  const { handed, reel } = await oneReel()
  const at = '2026-03-01T12:30:00.000Z'
  const { facts } = valueOf(
    await recordOfReel(handed, reel, { kind: 'moved', place: 'shelf' }, { at, note: 'top left' }),
  )
  expect(facts[0]).toMatchObject({ at, note: 'top left' })
  expect(facts[0]!.recorded_at).not.toBe(at)
})

test('a cut length tells of the filament, and comes off the reel', async () => {
  const { handed, reel } = await oneReel()
  const cut = { length_mm: { value: 2000, u: 1 }, weighing: { reading_g: 5.9, u_g: 0.02 } }
  const { facts, reels } = valueOf(await measureReel(handed, reel, { cut }))
  expect(facts.map(({ kind }) => kind)).toEqual(['measured', 'trimmed'])
  const { before, now } = reels[0]!
  expect(before!.net.value - now!.net.value).toBeCloseTo(5.9, 0)
  expect(now!.linearDensity.u).toBeLessThan(before!.linearDensity.u / 2)
})

test('a sheet tells of every reel of its make', async () => {
  const { handed, reel } = await oneReel()
  const sheet = { source: 'sheet of 2026', tare_g: { value: 243, u: 3 } }
  const { reels } = valueOf(await stateOfMake(handed, 'Kittiwake PLA', sheet))
  expect(reels.map((change) => change.reel)).toEqual([reel])
  expect(reels[0]!.now!.tare.value).toBeCloseTo(243, 0)
  expect(codeOf(await stateOfMake(handed, 'PLA', { source: 'empty' }))).toBe('nothing_stated')
})
