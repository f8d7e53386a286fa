import {
  estimateShelf,
  type ShelfEstimate,
  shelfNets,
  weighingSurprise,
  withFacts,
} from '../src/estimate/index.ts'
import { grams } from '../src/units/index.ts'
import { inventedShelf } from './invented-shelf.ts'
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
