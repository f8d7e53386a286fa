// oxlint-disable no-await-in-loop -- one row after another
import { expect, test } from 'vitest'
import { addRow, measureReel, shelfView } from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, valueOf } from '../shelf-bench.ts'

const cutOf = async (
  length_mm: number,
  scale: string,
  reading_g = (2.98 * length_mm) / 1000,
): Promise<string> => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed)
  for (const [name, step_g, repeatability_g] of [
    ['kitchen scale', 1, 0.5],
    ['pocket scale', 0.01, 0.01],
  ] as const) {
    valueOf(await addRow(handed, 'scale', { name, step_g, repeatability_g, gain: 0.001 }))
  }
  const cut = { length_mm: { value: length_mm, u: 1 }, weighing: { reading_g, scale } }
  const { notes, facts } = valueOf(await measureReel(handed, reels[0]!, { cut }))
  expect(facts.map(({ kind }) => kind)).toEqual(['measured', 'trimmed'])
  expect(valueOf(await shelfView(handed.store)).facts).toHaveLength(3)
  return notes.slice(1).join(' ')
}

test('a cut length is told to be weighed too coarsely to add to what is known', async () => {
  // A step of 1 g and a repeatability of 0.5 g leave 0.58 g, over 2 m 0.29 g/m.
  const note = await cutOf(2000, 'kitchen scale', 6)
  expect(note).toMatch(
    /A piece of 2 m, weighed to ± 0.58 g on kitchen scale, tells the grams per metre to ± 0.29; they were known to ± 0\.\d+ before/,
  )
  const [, metres] = /A piece of (\d+) m would tell as much/.exec(note)!
  expect(await cutOf(Number(metres) * 1000, 'kitchen scale')).toBe('')
  expect(await cutOf((Number(metres) - 1) * 1000, 'kitchen scale')).not.toBe('')
})

test('on a fine scale nothing is said', async () => {
  expect(await cutOf(1000, 'pocket scale')).toBe('')
})

test('of a reel that is known well only a finer scale would tell more', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed)
  const linear_density_g_per_m = { value: 2.98, u: 0.005 }
  valueOf(await measureReel(handed, reels[0]!, { linear_density_g_per_m }))
  const cut = { length_mm: { value: 2000, u: 1 }, weighing: { reading_g: 6 } }
  const { notes } = valueOf(await measureReel(handed, reels[0]!, { cut }))
  expect(notes.at(-1)).toMatch(/only a finer scale/)
})

const slips = [
  { cut: { length_mm: { value: 1000, u: 1 }, weighing: { reading_g: 29.8, u_g: 0.03 } } },
  { linear_density_g_per_m: { value: 5, u: 0 } },
  { calipers: { places_mm: [[1.25, 1.26] as const] } },
  { density_g_per_cm3: { value: 2.24, u: 0.01 } },
  {
    winding: {
      hub_mm: { value: 80, u: 1 },
      outer_mm: { value: 95, u: 1 },
      width_mm: { value: 60, u: 1 },
    },
  },
]

test.each(slips)(
  'what no such filament can be is not recorded unless accepted: %j',
  async (slip) => {
    const handed = await bench()
    const { reels } = await addKittiwake(handed)
    const reel = reels[0]!
    const before = (await handed.store.facts()).length
    const asked = await measureReel(handed, reel, slip)
    expect(codeOf(asked)).toBe('measure_surprising')
    expect(asked.ok ? '' : asked.refusal.message).toMatch(/besides .* standard deviations/)
    expect(await handed.store.facts()).toHaveLength(before)
    const { notes } = valueOf(await measureReel(handed, reel, slip, { accept: true }))
    // What disagrees adds a great deal.
    expect(notes.join(' ')).not.toContain('adds little')
  },
)

test('a slip is told in grams per metre, beside those believed', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed)
  const asked = await measureReel(handed, reels[0]!, slips[0]!)
  expect(asked.ok ? '' : asked.refusal.message).toMatch(
    /It tells 29\.8 g\/m, and (?:2\.9|3\.0)\d* ± 0\.\d+ g\/m is believed/,
  )
})
