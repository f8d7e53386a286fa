import { readFileSync, writeFileSync } from 'node:fs'
import {
  estimateShelf,
  type ShelfEstimate,
  shelfNets,
  weighingSurprise,
  withFacts,
} from '../src/estimate/index.ts'
import { grams } from '../src/units/index.ts'
import { inventedShelf } from './invented-shelf.ts'
import { describeMachine } from './machine.ts'
import { type Column, markdownTable } from './markdown-table.ts'
import { median } from './median.ts'
import { withSection } from './results-page.ts'
import { timed } from './timed.ts'

/*
 * Time and memory of the whole-shelf estimate at four sizes, each in a process of its own:
 *
 *     node benchmarks/shelf-speed.ts [--write]
 *
 * `--write` renews its section of benchmarks/RESULTS.md. Times are those of the processor, all threads of
 * the process together, so that they are the same on a busy machine; none of it runs on two threads but
 * what collects garbage. A reel has 100 facts: it is opened, then fed 80 times with 19 weighings between, a day apart. One
 * make in four is of a material that takes up water. Both rounds of the expansion and the nets of all
 * reels are in the time; making up the facts is not. What the full estimates leave behind is collected before
 * the weighings, of which else any one would bear it.
 */

const sizes = [1250, 2500, 5000, 10_000]

const speedHeading = '## Speed of the whole shelf'
/** What is to be reached at the largest size. */
const aims = { full_ms: 2000, one_ms: 50, peak_MiB: 954, growth: 1.5 } as const

/** Time of the processor, ms. */
const clock = (run: () => void): number => {
  const from = process.cpuUsage()
  run()
  const { user, system } = process.cpuUsage(from)
  return (user + system) / 1000
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
  globalThis.gc?.()
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

type Figures = Readonly<Record<string, number>>

const text = (heading: string): Column => ({ heading, figures: false })
const figures = (heading: string): Column => ({ heading, figures: true })

const met = (yes: boolean): string => (yes ? 'reached' : '**not reached**')

const row = (what: string, found: string, aim: string, isMet: boolean): string[] => [
  what,
  found,
  aim,
  met(isMet),
]

const aimRows = (all: readonly Figures[]): readonly string[][] => {
  const most = all.at(-1)!
  const perFact = all.map((of) => of['full_ms']! / of['facts']!)
  // That small shelves bear the start of the process is no growth.
  const growth = Math.max(
    ...perFact.flatMap((time, place) => perFact.slice(0, place).map((before) => time / before)),
  )
  const ms = (key: string, aim: number, digits = 0): [string, string, boolean] => [
    `${most[key]!.toFixed(digits)} ms`,
    `${aim} ms`,
    most[key]! < aim,
  ]
  return [
    row('full estimate, the first in its process', ...ms('first_ms', aims.full_ms)),
    row('full estimate, median of 3', ...ms('full_ms', aims.full_ms)),
    row('effect of one weighing, median of 21', ...ms('one_ms', aims.one_ms, 1)),
    row('the slowest of them', ...ms('slowest_ms', aims.one_ms, 1)),
    row(
      'peak memory',
      `${most['peak_MiB']!.toFixed(0)} MiB`,
      `${aims.peak_MiB} MiB (1 GB)`,
      most['peak_MiB']! < aims.peak_MiB,
    ),
    row(
      'time for each fact, the most that it grows from a smaller size to a larger',
      growth.toFixed(2),
      `${aims.growth} (linear)`,
      growth < aims.growth,
    ),
  ]
}

const asked = process.argv[2]
if (asked === undefined || asked === '--write') {
  const all = sizes.map((size) => {
    const { output } = timed([process.execPath, '--expose-gc', import.meta.filename, String(size)])
    return JSON.parse(output) as Figures
  })
  const rows = all.map((of, place) => {
    const figure = (key: string, digits = 0): string => of[key]!.toFixed(digits)
    return [
      String(sizes[place]),
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
  const columns = headings.map(figures)
  const { date, cpu, cores, system, versions } = describeMachine()
  const section = [
    speedHeading,
    '',
    `Written by \`node benchmarks/shelf-speed.ts --write\` on ${date}: ${cpu}, ${cores} cores, ${system};`,
    `${versions.split(', ').slice(0, 2).join(', ')}. Times are those of the processor, each size in a process of its own. A reel has 100 facts.`,
    '',
    ...markdownTable(columns, rows),
    '',
    `At ${sizes.at(-1)} reels:`,
    '',
    ...markdownTable(
      [text('what'), figures('measured'), figures('to reach'), text('')],
      aimRows(all),
    ),
  ].join('\n')
  console.log(section)
  if (asked === '--write') {
    const path = 'benchmarks/RESULTS.md'
    writeFileSync(path, withSection(readFileSync(path, 'utf8'), speedHeading, section))
  }
} else {
  measure(Number(asked))
}
