import { SeededRandom } from '../demo/seeded-random.ts'
import { matchSlate } from '../src/match/index.ts'
import { highsSolver } from '../src/solver/index.ts'
import { bestOfEveryPlan } from '../test/match/every-plan.ts'
import { randomSlate } from '../test/match/random-slate.ts'

/*
 * Holds the match of small random slates against every plan there is, at every level:
 *
 *     node benchmarks/match-exact.ts [slates]
 *
 * Prints each that differs and how many do; ends with 1 if any does.
 */

const slates = Number(process.argv[2] ?? 1000)
let plans = 0
let worse = 0
let unproven = 0
for (let seed = 1; seed <= slates; seed++) {
  const slate = randomSlate(new SeededRandom(seed))
  const best = bestOfEveryPlan(slate)
  // oxlint-disable-next-line no-await-in-loop -- one slate after the other, as a person would wait for it
  const { levels } = await matchSlate(slate, { solver: highsSolver() })
  plans += best.looked
  const isWorse = levels.some(({ value }, i) => Math.abs(value - best.value[i]!) > 0.01)
  if (isWorse)
    console.log(
      `${seed}: ${levels.map(({ value }) => value).join(', ')} against ${best.value.join(', ')}`,
    )
  worse += Number(isWorse)
  unproven += Number(levels.some(({ value, bound }) => value > bound + 0.01))
}
console.log(
  `${slates} slates, ${plans} plans looked at: ${worse} worse than the best, ${unproven} not proven`,
)
process.exitCode = Number(worse > 0)
