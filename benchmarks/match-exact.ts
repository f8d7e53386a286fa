import { readFileSync, writeFileSync } from 'node:fs'
import { SeededRandom } from '../demo/seeded-random.ts'
import { matchSlate } from '../src/match/index.ts'
import { highsSolver } from '../src/solver/index.ts'
import { bestOfEveryPlan } from '../test/match/every-plan.ts'
import { randomSlate } from '../test/match/random-slate.ts'
import { describeMachine } from './machine.ts'
import { markdownTable } from './markdown-table.ts'
import { withSection } from './results-page.ts'

/*
 * Holds the match of small random slates against every plan there is, at every level:
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

const levels = new Map<string, AtLevel>()
let plans = 0
let most = 0
let reckoned = 0
let worse = 0
let unproven = 0
let took_ms = 0
let slowest_ms = 0
for (let seed = 1; seed <= slates; seed++) {
  const slate = randomSlate(new SeededRandom(seed))
  const best = bestOfEveryPlan(slate)
  const begun = performance.now()
  // oxlint-disable-next-line no-await-in-loop -- one slate after the other, as a person would wait for it
  const plan = await matchSlate(slate, { solver: highsSolver() })
  const each_ms = performance.now() - begun
  took_ms += each_ms
  slowest_ms = Math.max(slowest_ms, each_ms)
  plans += best.plans
  most = Math.max(most, best.plans)
  reckoned += best.reckoned
  let isWorse = false
  let isUnproven = false
  for (const [i, { level, value, bound }] of plan.levels.entries()) {
    const at = levels.get(level) ?? { level, slates: 0, matters: 0, worse: 0, unproven: 0 }
    levels.set(level, at)
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
    console.error(`${seed}: ${values} against ${best.value.join(', ')}`)
  }
  worse += Number(isWorse)
  unproven += Number(isUnproven)
  if (seed % stride === 0) console.error(`${seed} of ${slates} slates, ${worse} worse`)
}

const { date, cpu, versions } = describeMachine()
const count = new Intl.NumberFormat('en', { useGrouping: true })
const section = [
  heading,
  '',
  `Written by \`node benchmarks/match-exact.ts ${slates} --write\` on ${date}: ${cpu}, ${versions.split(', ').slice(0, 2).join(', ')}.`,
  '',
  `${slates} small random slates (\`test/match/random-slate.ts\`) with ${count.format(plans)} plans in all, at most`,
  `${count.format(most)} of one. Passed over are those that ask too much of a reel or are worse already in what can`,
  `only grow; ${count.format(reckoned)} were reckoned to the end. **${worse} matches worse than the best, ${unproven} not proven.**`,
  `A match took ${(took_ms / slates).toFixed(0)} ms on average, the slowest ${slowest_ms.toFixed(0)} ms.`,
  '',
  '*Matters*: slates where even the best plan has something at the level. `unserved` is there once for each',
  'importance.',
  '',
  ...markdownTable(
    [
      { heading: 'level', figures: false },
      ...['there', 'matters', 'worse', 'not proven'].map((each) => ({
        heading: each,
        figures: true,
      })),
    ],
    [...levels.values()].map(({ level, ...counts }) => [
      level,
      String(counts.slates),
      String(counts.matters),
      String(counts.worse),
      String(counts.unproven),
    ]),
  ),
].join('\n')
console.log(section)
if (words.includes('--write')) {
  const path = 'benchmarks/RESULTS.md'
  writeFileSync(path, withSection(readFileSync(path, 'utf8'), heading, section))
}
process.exitCode = Number(worse > 0)
