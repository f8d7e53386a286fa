import { readFileSync, writeFileSync } from 'node:fs'
import { matchInThread } from 'reelreckon/solver'
import { SeededRandom } from '../demo/seeded-random.ts'
import type { LevelResult, MatchPlan } from '../src/match/index.ts'
import { inventedSlate, type SlateSize } from './invented-slate.ts'
import { describeMachine } from './machine.ts'
import { markdownTable } from './markdown-table.ts'
import { type Chosen, clock, matched, ranOut, rivals } from './match-rivals.ts'
import { median } from './median.ts'
import { withSection } from './results-page.ts'

/*
 * The match: how long it takes and how near to the best it comes, and what it saves beside choosing by
 * hand, on the same seeded shelves.
 *
 *     node benchmarks/match.ts [--write] [--shelves 50]
 *
 * `--write` renews its section of benchmarks/RESULTS.md.
 */

export const matchHeading = '## Which reel for which print'

const words = process.argv.slice(2)
const shelves = Number(words[words.indexOf('--shelves') + 1] ?? 50) || 50
const worlds = 40
/** Time of the processor for each shelf. */
const shelfLimit_ms = 500

interface Timed {
  readonly name: string
  readonly size: SlateSize
  readonly limit_ms: number
  readonly seeds: readonly number[]
}

const sizes: readonly Timed[] = [
  {
    name: '20 prints, 30 reels',
    size: { copies: 20, reels: 30, groups: 1, printers: 2 },
    limit_ms: 800,
    seeds: [1, 2, 3, 4, 5],
  },
  {
    name: '120 prints, 80 reels, 6 groups',
    size: { copies: 120, reels: 80, groups: 6, printers: 4 },
    limit_ms: 10_000,
    seeds: [1, 2],
  },
]

const gapOf = ({ level, value, bound }: LevelResult): string => {
  if (value - bound < 0.01) return `${level} ${trimmed(value)}, proven`
  return `${level} ${trimmed(value)}, at least ${trimmed(bound)}`
}
const trimmed = (value: number): string => String(Math.round(10 * value) / 10)

const speedRows = async ({ name, size, limit_ms, seeds }: Timed): Promise<readonly string[][]> => {
  const rows: string[][] = []
  for (const seed of seeds) {
    const slate = inventedSlate(new SeededRandom(seed), size)
    const begun = performance.now()
    const had = clock()
    // One after the other: they are timed.
    // oxlint-disable-next-line no-await-in-loop
    const plan = await matchInThread(slate, { limit_ms })
    const took = (performance.now() - begun) / 1000
    const used = (clock() - had) / 1000
    rows.push([name, String(seed), used.toFixed(2), took.toFixed(2), ...summary(plan)])
    console.error(`${name}, seed ${seed}: ${used.toFixed(2)} s of ${took.toFixed(2)} s`)
  }
  return rows
}

const summary = ({ levels }: MatchPlan): readonly string[] => {
  const first = levels.filter(({ level }) => level !== 'stubs' && level !== 'swaps')
  const isProven = first.every(({ value, bound }) => value - bound < 0.01)
  const stubs = levels.find(({ level }) => level === 'stubs')!
  const swaps = levels.find(({ level }) => level === 'swaps')!
  const opened = levels.find(({ level }) => level === 'opened')!
  return [
    isProven ? `proven (opened ${opened.value})` : first.map(gapOf).join('; '),
    gapOf(stubs).replace('stubs ', ''),
    gapOf(swaps).replace('swaps ', ''),
  ]
}

interface Sums {
  readonly name: string
  readonly each: Chosen['value'][]
  prints: number
  out: number
}

const compared = async (): Promise<readonly Sums[]> => {
  const names = [...rivals.map(([name]) => name), 'the match']
  const sums = names.map((name): Sums => ({ name, each: [], prints: 0, out: 0 }))
  for (let seed = 1; seed <= shelves; seed++) {
    const size = { copies: 14, reels: 10, groups: 1, printers: 1 }
    const slate = inventedSlate(new SeededRandom(1000 + seed), size)
    const chosen: Chosen[] = rivals.map(([, choose]) => choose(slate))
    // oxlint-disable-next-line no-await-in-loop -- timed, so one after the other
    chosen.push(await matched(slate, shelfLimit_ms))
    for (const [i, each] of chosen.entries()) {
      const { prints, out } = ranOut(slate, each, new SeededRandom(seed), worlds)
      sums[i]!.each.push(each.value)
      sums[i]!.prints += prints
      sums[i]!.out += out
    }
    console.error(`shelf ${seed} of ${shelves}`)
  }
  return sums
}

const comparedRows = (sums: readonly Sums[]): readonly string[][] =>
  sums.map(({ name, each, prints, out }) => {
    const total = (level: string): number =>
      each.reduce((sum, value) => sum + (value[level] ?? 0), 0)
    return [
      name,
      String(total('unserved')),
      String(total('changes')),
      String(total('opened')),
      total('stubs').toFixed(0),
      String(total('swaps')),
      `${((100 * out) / prints).toFixed(2)} %`,
    ]
  })

const figures = (...headings: readonly string[]) =>
  headings.map((heading) => ({ heading, figures: true }))
const text = (...headings: readonly string[]) =>
  headings.map((heading) => ({ heading, figures: false }))

const speed: string[][] = []
for (const each of sizes) {
  // oxlint-disable-next-line no-await-in-loop -- timed, so one after the other
  speed.push(...(await speedRows(each)))
}
const small = speed.filter(([name]) => name === sizes[0]!.name).map(([, , , took]) => Number(took))
const sums = await compared()
const { date, cpu, cores, versions } = describeMachine()
const section = [
  matchHeading,
  '',
  `Measured ${date} on ${cpu}, ${cores} cores (groups are solved side by side), ${versions.split(', ').slice(0, 2).join(', ')}; by \`node benchmarks/match.ts --write\`.`,
  '',
  'Invented slates: part-used reels and three sealed ones of each material, prints of 6 to 420 g, half of',
  'them on either of two printers. *Proven*: no plan is better at that level without being worse at one',
  'before it; otherwise the least that is possible is given. The time limit was',
  `${sizes.map(({ name, limit_ms }) => `${limit_ms / 1000} s for ${name}`).join(' and ')} on the clock, threads' beginning counted.`,
  '',
  ...markdownTable(
    [
      ...text('slate'),
      ...figures('seed', 'processor s', 'clock s'),
      ...text('served, late, changes, opened', 'stubs, g', 'swaps'),
    ],
    speed,
  ),
  '',
  `Median of the small ones: ${median(small).toFixed(2)} s on the clock.`,
  '',
  `The same ${shelves} seeded shelves (14 prints, 10 reels, one printer) by hand and by the match in ${shelfLimit_ms / 1000} s, sums`,
  'over all.',
  `Run-outs: each plan printed in ${worlds} worlds drawn from what was told; the match promises at most 5 %.`,
  '',
  ...markdownTable(
    [
      ...text('chosen by'),
      ...figures('not served', 'changes', 'opened', 'stubs, g', 'swaps', 'prints that ran out'),
    ],
    comparedRows(sums),
  ),
].join('\n')
console.log(section)
if (words.includes('--write')) {
  const path = 'benchmarks/RESULTS.md'
  writeFileSync(path, withSection(readFileSync(path, 'utf8'), matchHeading, section))
}
