import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { bench } from '../../demo/bench.ts'
import { type BenchReel, trueLinearDensity } from '../../demo/reel.ts'
import { reels } from '../../demo/reels.ts'
import { situations, trueEnds } from '../../demo/situations.ts'
import { storyTables } from '../../demo/story.ts'

const shelf = Object.values<BenchReel>(reels)

describe.each(shelf)('reel $name', ({ known, hidden }) => {
  test('the scale shows what is truly there', () => {
    const step_g = bench.scales.kitchen.step_g
    expect(Math.abs(hidden.tare_g + hidden.net_g - known.gross_g)).toBeLessThanOrEqual(step_g / 2)
    expect(known.gross_g).toBeLessThan(bench.scales.kitchen.capacity_g)
  })

  test('what is known agrees with what is true', () => {
    if (known.tare.by === 'weighed') {
      expect(Math.abs(known.tare.tare_g - hidden.tare_g)).toBeLessThanOrEqual(0.5)
    }
    if (known.cut !== undefined) {
      const true_g = (known.cut.length_mm / 1000) * trueLinearDensity(hidden)
      expect(Math.abs(known.cut.mass_g - true_g)).toBeLessThanOrEqual(0.01)
      expect(known.cut.mass_g).toBeLessThan(bench.scales[known.cut.scale].capacity_g)
    }
    if (known.grossNew_g !== undefined && known.labelNet_g !== undefined) {
      const overfill_g = known.grossNew_g - hidden.tare_g - known.labelNet_g
      expect(Math.abs(overfill_g)).toBeLessThan(known.labelNet_g / 50)
    }
    if (known.density_gPerCm3 !== undefined) {
      expect(Math.abs(known.density_gPerCm3 / hidden.density_gPerCm3 - 1)).toBeLessThan(0.01)
    }
    for (const [first, second] of known.diameterPairs_mm ?? []) {
      expect(Math.abs(first - hidden.diameters_mm[0])).toBeLessThan(0.03)
      expect(Math.abs(second - hidden.diameters_mm[1])).toBeLessThan(0.03)
    }
  })
})

test('linear density is mass over length: a metre of 1.75 mm at 1.24 g/cm³', () => {
  const nominal = {
    tare_g: 0,
    net_g: 0,
    density_gPerCm3: 1.24,
    diameters_mm: [1.75, 1.75],
  } as const
  expect(trueLinearDensity(nominal)).toBeCloseTo(2.98255, 5)
})

describe.each(situations)('$name', (situation) => {
  const ends = trueEnds(situation)

  test('has a reel and a tool for each tool of the print', () => {
    expect(situation.reels).toHaveLength(situation.print.truth.tools.length)
    expect(situation.print.truth.tools.length).toBeLessThanOrEqual(situation.printer.tools)
  })

  test('what is meant to be sure is true', () => {
    const finishes = ends.every((end) => end.finishes)
    if (situation.meant === 'enough') expect(finishes).toBe(true)
    if (situation.meant === 'short') expect(finishes).toBe(false)
  })
})

test('every verdict is shown, and among the close ones both ends', () => {
  expect(new Set(situations.map(({ meant }) => meant))).toEqual(
    new Set(['enough', 'close', 'short']),
  )
  const close = situations.filter(({ meant }) => meant === 'close')
  const finish = close.filter((situation) => trueEnds(situation).every((end) => end.finishes))
  expect(finish.length).toBeGreaterThan(1)
  expect(close.length - finish.length).toBeGreaterThan(1)
})

test('a situation without a reel for each tool is a mistake of the story', () => {
  const [situation] = situations
  if (situation === undefined) throw new Error('no situations')
  expect(() => trueEnds({ ...situation, reels: [] })).toThrow(RangeError)
})

test('every reel has a situation', () => {
  const used = new Set(situations.flatMap((situation) => situation.reels))
  expect(shelf.filter((reel) => !used.has(reel)).map(({ name }) => name)).toEqual([])
})

test('the page tells the tables as the data have them', () => {
  const page = readFileSync(new URL('../../demo/README.md', import.meta.url), 'utf8')
  expect(page).toContain(`<!-- node demo/story.ts -->\n${storyTables()}\n<!-- end -->`)
})
