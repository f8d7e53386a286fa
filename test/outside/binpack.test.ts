import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { type MatchSlate, matchSlate } from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { measured } from '../../src/units/index.ts'
import { copyOf, exactPrinter, toldBelief } from '../match/told-slate.ts'

// Bin packing as a slate: every item a print of so many grams, every bin a sealed reel that holds exactly
// its capacity. The fewest bins are the fewest newly opened reels, by the same call as any other match.

/** Sealed reels of a capacity in whole grams; half a gram more, for what is just used up does not last. */
const slateOf = (items: readonly number[], capacity: number, bins: number): MatchSlate => {
  const ids = Array.from({ length: bins }, (_, i) => `bin ${i}`)
  return {
    copies: items.map((item, i) => copyOf(`item ${i}`, item, ids)),
    reels: ids.map((id) => ({
      id,
      sealed: true,
      belief: toldBelief(measured(capacity + 0.5), ['a']),
    })),
    printers: [exactPrinter('a')],
    useful_g: 0,
  }
}

const opened = async (slate: MatchSlate) => {
  const { levels } = await matchSlate(slate, { solver: highsSolver() })
  const [unserved] = levels
  expect(unserved!.value).toBe(0)
  return levels.find(({ level }) => level === 'opened')!
}

// E. Falkenauer, J. Heuristics 2 (1996) 5–30; OR-Library binpack1, first instance; 48 is optimal, for
// the items come to 7078 and 48 · 150 = 7200 while 47 · 150 = 7050.
const u120_00 = [
  42, 69, 67, 57, 93, 90, 38, 36, 45, 42, 33, 79, 27, 57, 44, 84, 86, 92, 46, 38, 85, 33, 82, 73,
  49, 70, 59, 23, 57, 72, 74, 69, 33, 42, 28, 46, 30, 64, 29, 74, 41, 49, 55, 98, 80, 32, 25, 38,
  82, 30, 35, 39, 57, 84, 62, 50, 55, 27, 30, 36, 20, 78, 47, 26, 45, 41, 58, 98, 91, 96, 73, 84,
  37, 93, 91, 43, 73, 85, 81, 79, 71, 80, 76, 83, 41, 78, 70, 23, 42, 87, 43, 84, 60, 55, 49, 78,
  73, 62, 36, 44, 94, 69, 32, 96, 70, 84, 58, 78, 25, 80, 58, 66, 83, 24, 98, 60, 42, 43, 43, 39,
]

describe('u120 of OR-Library', () => {
  it('u120_00 in 48 bins, where first-fit decreasing takes 49', async () => {
    expect(u120_00.reduce((sum, item) => sum + item, 0)).toBe(7078)
    expect(firstFitDecreasing(u120_00, 150)).toBe(49)
    const { value, bound } = await opened(slateOf(u120_00, 150, 60))
    expect([value, bound]).toEqual([48, 48])
  })

  const file = '../shared/datasets/binpack1.txt'
  const isThere = existsSync(file)
  if (!isThere) console.warn(`${file} is not there: u120_01 to u120_19 are left out`)
  for (const { name, capacity, best, items } of isThere ? instancesOf(file).slice(1) : []) {
    it(`${name} in ${best} bins, the best known`, { timeout: 180_000 }, async () => {
      const { value, bound } = await opened(slateOf(items, capacity, 60))
      expect([value, bound]).toEqual([best, best])
    })
  }
})

describe('the cutting-stock example', () => {
  // Widths and demands of a paper machine, 5600 mm wide, en.wikipedia.org/wiki/Cutting_stock_problem
  // (from memory, arithmetic checked: they come to 407 160 mm, which is more than 72 · 5600).
  const demand: readonly (readonly [width: number, times: number])[] = [
    [1380, 22],
    [1520, 25],
    [1560, 12],
    [1710, 14],
    [1820, 18],
    [1880, 18],
    [1930, 20],
    [2000, 10],
    [2050, 12],
    [2100, 14],
    [2140, 16],
    [2150, 18],
    [2200, 20],
  ]
  it('takes 73 stock lengths', async () => {
    const items = demand.flatMap(([width, times]) => Array.from({ length: times }, () => width))
    expect(items.reduce((sum, item) => sum + item, 0)).toBe(407_160)
    const { value, bound } = await opened(slateOf(items, 5600, 90))
    expect([value, bound]).toEqual([73, 73])
  })
})

describe('triplets', () => {
  // As Falkenauer's t-class: three items fill a bin exactly, and no bin takes more than three, so that
  // n items need n/3 bins by construction.
  it.each([1, 2, 3])('60 items that fill 20 bins to the gram, made with seed %i', async (seed) => {
    const items = triplets(20, seed)
    expect(Math.min(...items)).toBeGreaterThan(250)
    const { value, bound } = await opened(slateOf(items, 1000, 25))
    expect([value, bound]).toEqual([20, 20])
  })
})

function triplets(bins: number, seed: number): readonly number[] {
  // A linear congruential generator (Numerical Recipes' constants, from memory) is random enough here.
  let state = seed
  const between = (low: number, high: number): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return low + (state % (high - low + 1))
  }
  return Array.from({ length: bins }, () => {
    const first = between(380, 490)
    const rest = 1000 - first
    const second = between(251, rest - 251)
    return [first, second, rest - second]
  }).flat()
}

function firstFitDecreasing(items: readonly number[], capacity: number): number {
  const rooms: number[] = []
  for (const item of items.toSorted((a, b) => b - a)) {
    const place = rooms.findIndex((room) => room >= item)
    if (place < 0) rooms.push(capacity - item)
    else rooms[place]! -= item
  }
  return rooms.length
}

function instancesOf(file: string) {
  const words = readFileSync(file, 'utf8').trim().split(/\s+/)
  const found = []
  for (let at = 1; at < words.length; ) {
    const name = words[at]!
    const [capacity, count, best] = words.slice(at + 1, at + 4).map(Number) as [
      number,
      number,
      number,
    ]
    found.push({ name, capacity, best, items: words.slice(at + 4, at + 4 + count).map(Number) })
    at += 4 + count
  }
  return found
}
