import { readFileSync, writeFileSync } from 'node:fs'
import { SeededRandom } from '../demo/seeded-random.ts'
import { type MatchSlate, matchSlate } from '../src/match/index.ts'
import { highsSolver } from '../src/solver/index.ts'
import { bestOfEveryPlan } from '../test/match/every-plan.ts'
import { randomSlate, waitingSlate } from '../test/match/random-slate.ts'
import { describeMachine } from './machine.ts'
import { markdownTable } from './markdown-table.ts'
import { withSection } from './results-page.ts'

/*
 * Holds the match of small random slates against every plan there is, at every level, and of as many with due
 * times and few reels for their printers, where copies wait for reels:
 *
 *     node benchmarks/match-exact.ts [slates] [--write]
 *
 * Prints each that differs and how many do; ends with 1 if any does. `--write` renews its section of
 * benchmarks/RESULTS.md.
 */

const heading = '## The match against every plan there is'

const words = process.argv.slice(2)
const slates = Number(words.find((word) => word !== '--write') ?? 1000)
/** Slates between two words of progress. */
const stride = 50

/** What some slates came to at a level. */
interface AtLevel {
  readonly level: string
  slates: number
  /** Those where the best value is not 0: where the level had something to decide. */
  matters: number
  worse: number
  unproven: number
}

/** What slates of one sort came to. */
interface Tally {
  readonly sort: string
  readonly levels: Map<string, AtLevel>
  plans: number
  most: number
  reckoned: number
  worse: number
  unproven: number
  took_ms: number
  slowest_ms: number
  /** Those of which the best plan would be another if a reel could be on several printers at once. */
  waits: number
  /** Those of them of which fewer copies would be late. */
  lateByWaits: number
}

const held = async (tally: Tally, seed: number, slate: MatchSlate): Promise<void> => {
  const best = bestOfEveryPlan(slate)
  const { value: apart } = bestOfEveryPlan(slate, { hasWaits: false })
  const begun = performance.now()
  const plan = await matchSlate(slate, { solver: highsSolver() })
  const each_ms = performance.now() - begun
  tally.took_ms += each_ms
  tally.slowest_ms = Math.max(tally.slowest_ms, each_ms)
  tally.plans += best.plans
  tally.most = Math.max(tally.most, best.plans)
  tally.reckoned += best.reckoned
  const atLate = plan.levels.findIndex(({ level }) => level === 'late')
  tally.waits += Number(best.value.some((each, i) => Math.abs(each - apart[i]!) > 0.01))
  tally.lateByWaits += Number(best.value[atLate]! > apart[atLate]!)
  let isWorse = false
  let isUnproven = false
  for (const [i, { level, value, bound }] of plan.levels.entries()) {
    const at = tally.levels.get(level) ?? { level, slates: 0, matters: 0, worse: 0, unproven: 0 }
    tally.levels.set(level, at)
    const differs = Math.abs(value - best.value[i]!) > 0.01
    const isOpen = value > bound + 0.01
    at.slates++
    at.matters += Number(best.value[i]! > 0.01)
    at.worse += Number(differs)
    at.unproven += Number(isOpen)
    isWorse ||= differs
    isUnproven ||= isOpen
  }
  if (isWorse) {
    const values = plan.levels.map(({ value }) => value).join(', ')
    console.error(`${tally.sort} ${seed}: ${values} against ${best.value.join(', ')}`)
  }
  tally.worse += Number(isWorse)
  tally.unproven += Number(isUnproven)
}

const tallyOf = (sort: string): Tally => ({
  sort,
  levels: new Map(),
  plans: 0,
  most: 0,
  reckoned: 0,
  worse: 0,
  unproven: 0,
  took_ms: 0,
  slowest_ms: 0,
  waits: 0,
  lateByWaits: 0,
})

const [all, waiting] = [tallyOf('something of everything'), tallyOf('few reels')]
for (let seed = 1; seed <= slates; seed++) {
  // One slate after the other, as a person would wait for it.
  // oxlint-disable-next-line no-await-in-loop
  await held(all, seed, randomSlate(new SeededRandom(seed)))
  // oxlint-disable-next-line no-await-in-loop
  await held(waiting, seed, waitingSlate(new SeededRandom(seed)))
  if (seed % stride === 0) {
    console.error(`${seed} of ${slates} slates, ${all.worse + waiting.worse} worse`)
  }
}

const { date, cpu, versions } = describeMachine()
const count = new Intl.NumberFormat('en', { useGrouping: true })
const said = (tally: Tally): readonly string[] => [
  `${slates} slates with ${count.format(tally.plans)} plans in all, at most ${count.format(tally.most)} of one;`,
  `${count.format(tally.reckoned)} were reckoned to the end. **${tally.worse} matches worse than the best, ${tally.unproven} not proven.**`,
  `A match took ${(tally.took_ms / slates).toFixed(0)} ms on average, the slowest ${tally.slowest_ms.toFixed(0)} ms.`,
  `Of ${tally.waits} the best plan would be another if a reel could be on several printers at once, of ${tally.lateByWaits} of them`,
  'with fewer late.',
  '',
  ...markdownTable(
    [
      { heading: 'level', figures: false },
      ...['there', 'matters', 'worse', 'not proven'].map((each) => ({
        heading: each,
        figures: true,
      })),
    ],
    [...tally.levels.values()].map(({ level, ...counts }) => [
      level,
      String(counts.slates),
      String(counts.matters),
      String(counts.worse),
      String(counts.unproven),
    ]),
  ),
]
const section = [
  heading,
  '',
  `Written by \`node benchmarks/match-exact.ts ${slates} --write\` on ${date}: ${cpu}, ${versions.split(', ').slice(0, 2).join(', ')}.`,
  '',
  'Small random slates (`test/match/random-slate.ts`) against every plan there is, of each the best of all sequences',
  'of its copies over all printers. Passed over are plans that ask too much of a reel or are worse already in what',
  'can only grow.',
  '',
  '*Matters*: slates where even the best plan has something at the level. `unserved` is there once for each',
  'importance.',
  '',
  'With something of everything:',
  ...said(all),
  '',
  'With due times and few reels for their printers:',
  ...said(waiting),
].join('\n')
console.log(section)
if (words.includes('--write')) {
  const path = 'benchmarks/RESULTS.md'
  writeFileSync(path, withSection(readFileSync(path, 'utf8'), heading, section))
}
process.exitCode = Number(all.worse + waiting.worse > 0)
