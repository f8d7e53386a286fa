// Chances stated against what happens, in worlds unlike the priors: node benchmarks/reliability.ts
import { parseArgs } from 'node:util'
import {
  brierScoreOf,
  reliability,
  type SimulatedCase,
  type Simulation,
  simulate,
} from '../test/verdict/simulated-reels.ts'
import { type World, worlds } from '../test/verdict/simulated-worlds.ts'
import { markdownTable } from './markdown-table.ts'

const usage = `usage: node benchmarks/reliability.ts [options]
  --cases N  simulated reels in each world, default 20000
  --seed N   default 1`

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`

const shareOf = (
  cases: readonly SimulatedCase[],
  chosen: (one: SimulatedCase) => boolean,
): number | undefined => {
  const some = cases.filter(chosen)
  return some.length === 0
    ? undefined
    : some.filter(({ finished }) => !finished).length / some.length
}

const saidPercent = (share: number | undefined): string =>
  share === undefined ? 'none' : percent(share)

interface Run {
  readonly world: World
  readonly simulation: Simulation
}

const summary = (runs: readonly Run[]): readonly string[] =>
  markdownTable(
    [
      { heading: 'world', figures: false },
      ...[
        'Brier score',
        'by hand',
        'enough',
        'of it ran out',
        'by hand yes',
        'of it ran out',
        'refused',
      ].map((heading) => ({ heading, figures: true })),
    ],
    runs.map(({ world, simulation: { cases, refused } }) => {
      const enough = cases.filter(({ verdict }) => verdict === 'enough').length
      const yes = cases.filter(({ handSaysYes }) => handSaysYes).length
      return [
        world.name,
        brierScoreOf(cases, ({ chance }) => chance).toFixed(4),
        brierScoreOf(cases, ({ handSaysYes }) => Number(handSaysYes)).toFixed(4),
        percent(enough / cases.length),
        saidPercent(shareOf(cases, ({ verdict }) => verdict === 'enough')),
        percent(yes / cases.length),
        saidPercent(shareOf(cases, ({ handSaysYes }) => handSaysYes)),
        percent(refused / (refused + cases.length)),
      ]
    }),
  )

const table = ({ simulation }: Run): readonly string[] =>
  markdownTable(
    ['chance from', 'to', 'reels', 'stated', 'finished', 'apart by'].map((heading) => ({
      heading,
      figures: true,
    })),
    reliability(simulation.cases).map(({ low, high, count, stated, finished, sd }) => [
      percent(low),
      percent(high),
      String(count),
      percent(stated),
      percent(finished),
      `${((finished - stated) / sd).toFixed(1)} sd`,
    ]),
  )

const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
  },
})
const cases = Number(values.cases)
const seed = Number(values.seed)
if (!Number.isInteger(cases) || cases < 100 || !Number.isInteger(seed)) {
  console.error(usage)
  process.exitCode = 2
} else {
  const runs = worlds.map((world): Run => ({ world, simulation: simulate(world, cases, seed) }))
  const parts = runs.flatMap((run) => [
    '',
    `${run.world.name}: ${run.world.how}`,
    '',
    ...table(run),
  ])
  console.log([...summary(runs), ...parts].join('\n'))
}
