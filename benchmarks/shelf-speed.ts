import {
  estimateShelf,
  type ShelfCatalogue,
  type ShelfEstimate,
  type ShelfFact,
  shelfNets,
  weighingSurprise,
  withFacts,
} from '../src/estimate/index.ts'
import { kitchenScale } from '../src/filament/index.ts'
import { grams, millimetres } from '../src/units/index.ts'
import { markdownTable } from './markdown-table.ts'
import { median } from './median.ts'
import { timed } from './timed.ts'

/*
 * Time and memory of the whole-shelf estimate at four sizes, each in a process of its own:
 *
 *     node benchmarks/shelf-speed.ts
 *
 * A reel has 100 facts: it is opened, then fed 80 times with 19 weighings between, a day apart. One
 * make in four is of a material that takes up water. Both rounds of the expansion and the nets of all
 * reels are in the time; making up the facts is not.
 */

const sizes = [1250, 2500, 5000, 10_000]
const factsOfReel = 100

/** Facts as a bench would write them: true masses with the errors that the model speaks of. */
function inventedShelf(reelCount: number): { catalogue: ShelfCatalogue; facts: ShelfFact[] } {
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

const clock = (run: () => void): number => {
  const from = performance.now()
  run()
  return performance.now() - from
}

/** One size, in this process; prints a line of JSON. */
function measure(reels: number): void {
  const { catalogue, facts } = inventedShelf(reels)
  let estimate: ShelfEstimate | undefined
  const full = Array.from({ length: 3 }, () =>
    clock(() => {
      estimate = estimateShelf(catalogue, facts)
      shelfNets(estimate)
    }),
  )
  const touches = Array.from({ length: 21 }, (_, i) =>
    clock(() => {
      const reel = `reel ${(i * 37) % reels}`
      const more = {
        kind: 'weighed',
        id: `new ${i}`,
        at: 1000 + i,
        reel,
        scale: 'scale 0',
      } as const
      estimate = withFacts(estimate!, [{ ...more, reading: grams(1000) }])
    }),
  )
  const surprises = Array.from({ length: 5 }, (_, i) =>
    clock(() => {
      const seen = { kind: 'weighed', id: `odd ${i}`, at: 2000, reel: 'reel 7' } as const
      weighingSurprise(estimate!, { ...seen, scale: 'scale 0', reading: grams(900) })
    }),
  )
  const figures = {
    facts: facts.length,
    first_ms: full[0],
    full_ms: median(full),
    one_ms: median(touches),
    slowest_ms: Math.max(...touches),
    surprise_ms: median(surprises),
    peak_MiB: process.resourceUsage().maxRSS / 1024,
  }
  console.log(JSON.stringify(figures))
}

const asked = process.argv[2]
if (asked === undefined) {
  const rows = sizes.map((size) => {
    const { output } = timed([process.execPath, import.meta.filename, String(size)])
    const of = JSON.parse(output) as Record<string, number>
    const figure = (key: string, digits = 0): string => of[key]!.toFixed(digits)
    return [
      String(size),
      figure('facts'),
      figure('first_ms'),
      figure('full_ms'),
      ((1000 * of['full_ms']!) / of['facts']!).toFixed(2),
      figure('one_ms', 1),
      figure('slowest_ms', 1),
      figure('surprise_ms'),
      figure('peak_MiB'),
    ]
  })
  const headings = [
    'reels',
    'facts',
    'first full, ms',
    'full, ms',
    'full, µs a fact',
    'one weighing, ms',
    'slowest of 21, ms',
    'surprise, ms',
    'peak memory, MiB',
  ]
  const columns = headings.map((heading) => ({ heading, figures: true }))
  console.log(markdownTable(columns, rows).join('\n'))
} else {
  measure(Number(asked))
}
