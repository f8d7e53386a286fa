import {
  brierScore,
  type Forecast,
  logScore,
  murphyDecomposition,
  type ReliabilityBin,
  reliabilityBins,
} from '../test/scoring.ts'
import type { ShelfWorld } from '../test/verdict/shelf-worlds.ts'
import type { BenchCall, ShelfSimulation } from '../test/verdict/simulated-shelf.ts'
import type { Machine } from './machine.ts'
import { markdownTable } from './markdown-table.ts'

/** A world and what was simulated of it. */
export interface ShelfRun {
  readonly world: ShelfWorld
  readonly simulation: ShelfSimulation
  /** `elsewhere` has no targets; of the others those that are `harder` are told apart. */
  readonly kind: 'meant' | 'harder' | 'elsewhere'
}

/** What is to be reached. */
const aims = { ranOut: 0.01, ofHand: 1 / 3, apart: 0.03, counts: 200 } as const

/** Of its section in benchmarks/RESULTS.md. */
export const shelfHeading = '## Chances of the whole shelf'
const edges = [0, 0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.98, 1]
const ways = [
  ['weighed', 'weighed right then'],
  ['unweighed', 'from the ledger alone'],
] as const

const percent = (share: number, digits = 1): string => `${(100 * share).toFixed(digits)} %`
const points = (apart: number, error: number): string =>
  `${apart < 0 ? '−' : '+'}${(100 * Math.abs(apart)).toFixed(1)} ± ${(100 * error).toFixed(1)}`
const met = (yes: boolean): string => (yes ? 'reached' : '**not reached**')
const share = <T>(rows: readonly T[], chosen: (row: T) => boolean): number =>
  rows.filter(chosen).length / rows.length

const forecasts = (
  calls: readonly BenchCall[],
  way: (typeof ways)[number][0],
): readonly Forecast[] =>
  calls.map((call) => ({ chance: call[way], happened: call.finished, group: call.bench }))
const byHand = (calls: readonly BenchCall[]): readonly Forecast[] =>
  calls.map(({ handSaysYes, finished }) => ({ chance: Number(handSaysYes), happened: finished }))
const ranOut = (said: readonly Forecast[]): number =>
  share(
    said.filter(({ chance }) => chance >= 0.95),
    ({ happened }) => !happened,
  )
const wrong = (said: readonly Forecast[]): number =>
  share(said, ({ chance, happened }) => chance >= 0.5 !== happened)
const isHandWrong = ({ handSaysYes, finished }: BenchCall): number =>
  Number(handSaysYes !== finished)

/** A share of a share, and its standard error, benches kept whole. */
const quotient = (
  rows: readonly BenchCall[],
  part: (row: BenchCall) => number,
  whole: (row: BenchCall) => number,
): { readonly value: number; readonly error: number } => {
  const sum = (of: (row: BenchCall) => number): number =>
    rows.reduce((before, row) => before + of(row), 0)
  const value = sum(part) / sum(whole)
  const off = new Map<number, number>()
  for (const row of rows) {
    off.set(row.bench, (off.get(row.bench) ?? 0) + part(row) - value * whole(row))
  }
  const squares = [...off.values()].reduce((before, each) => before + each ** 2, 0)
  return { value, error: Math.sqrt(squares) / sum(whole) }
}
const worstOf = (bins: readonly ReliabilityBin[]): ReliabilityBin =>
  bins
    .filter(({ weight }) => weight >= aims.counts)
    .reduce((worst, bin) =>
      Math.abs(bin.observed - bin.stated) > Math.abs(worst.observed - worst.stated) ? bin : worst,
    )

const columns = (first: string, ...others: readonly string[]) => [
  { heading: first, figures: false },
  ...others.map((each) => ({ heading: each, figures: true })),
]

const scores = (runs: readonly ShelfRun[]): readonly string[] =>
  markdownTable(
    [
      { heading: 'world', figures: false },
      ...columns('chances', 'Brier', 'reliability', 'resolution', 'uncertainty', 'log score'),
    ],
    runs.flatMap(({ world, simulation: { calls } }) =>
      [...ways, 'by hand' as const].map((which) => {
        const said = which === 'by hand' ? which : which[1]
        const each = which === 'by hand' ? byHand(calls) : forecasts(calls, which[0])
        const parts = murphyDecomposition(reliabilityBins(each, edges))
        return [
          world.name,
          said,
          brierScore(each).toFixed(4),
          parts.reliability.toFixed(5),
          parts.resolution.toFixed(4),
          parts.uncertainty.toFixed(4),
          which === 'by hand' ? '—' : logScore(each).toFixed(4),
        ]
      }),
    ),
  )

const calls = (runs: readonly ShelfRun[]): readonly string[] =>
  markdownTable(
    [
      { heading: 'world', figures: false },
      ...columns(
        'chances',
        'enough',
        'of it ran out',
        'wrong at 50 %',
        'by hand',
        'of it ran out',
        'wrong by hand',
        'times as often',
        'farthest bin',
      ),
    ],
    runs.flatMap(({ world, simulation }) =>
      ways.map(([way, said]) => {
        const each = forecasts(simulation.calls, way)
        const hand = byHand(simulation.calls)
        const worst = worstOf(reliabilityBins(each, edges))
        return [
          world.name,
          said,
          percent(share(each, ({ chance }) => chance >= 0.95)),
          percent(ranOut(each), 2),
          percent(wrong(each), 2),
          percent(share(hand, ({ chance }) => chance === 1)),
          percent(ranOut(hand), 2),
          percent(wrong(hand), 2),
          (wrong(hand) / wrong(each)).toFixed(2),
          points(worst.observed - worst.stated, worst.error),
        ]
      }),
    ),
  )

const targets = (meant: readonly ShelfRun[]): readonly string[] =>
  ways.map(([way, said]) => {
    const each = meant.map(({ simulation: { calls: rows } }) => {
      const isEnough = (row: BenchCall): number => Number(row[way] >= 0.95)
      const isWrong = (row: BenchCall): number => Number(row[way] >= 0.5 !== row.finished)
      const worst = worstOf(reliabilityBins(forecasts(rows, way), edges))
      return {
        ranOut: quotient(rows, (row) => isEnough(row) * Number(!row.finished), isEnough),
        ofHand: quotient(rows, isWrong, isHandWrong),
        apart: { value: Math.abs(worst.observed - worst.stated), error: worst.error },
      }
    })
    const counted = meant.flatMap(({ simulation: { calls: rows } }) =>
      reliabilityBins(forecasts(rows, way), edges).filter(({ weight }) => weight >= aims.counts),
    )
    const over = ({ observed, stated }: ReliabilityBin): number =>
      Math.abs(observed - stated) - aims.apart
    const beyond = counted.filter((bin) => over(bin) > 0)
    const surely = beyond.filter((bin) => over(bin) > bin.error).length
    type Reached = (typeof each)[number]
    const most = (of: keyof Reached): Reached[keyof Reached] =>
      each.map((one) => one[of]).reduce((a, b) => (b.value > a.value ? b : a))
    const [out, hand, apart] = [most('ranOut'), most('ofHand'), most('apart')]
    return (
      `- ${said}: most run out on *enough* ${(100 * out.value).toFixed(2)} ± ${percent(out.error, 2)} ` +
      `(to reach: ${percent(aims.ranOut, 0)}; ${met(out.value <= aims.ranOut)}); wrong calls at 50 % at ` +
      `most ${hand.value.toFixed(3)} ± ${hand.error.toFixed(3)} of the hand method's (to reach: 0.333; ` +
      `${met(hand.value <= aims.ofHand)}); farthest bin ${(100 * apart.value).toFixed(1)} ± ` +
      `${(100 * apart.error).toFixed(1)} points (to reach: ${100 * aims.apart}; ` +
      `${met(apart.value <= aims.apart)}; ` +
      `${beyond.length} of ${counted.length} bins are beyond, ${surely} of them by more than their standard error).`
    )
  })

const named = (runs: readonly ShelfRun[]): string =>
  new Intl.ListFormat('en-GB').format(runs.map(({ world }) => `*${world.name}*`))

const cells = (bin: ReliabilityBin | undefined): readonly string[] =>
  bin === undefined
    ? ['0', '', '', '']
    : [
        String(bin.weight),
        percent(bin.stated),
        percent(bin.observed),
        points(bin.observed - bin.stated, bin.error),
      ]

const bins = (run: ShelfRun): readonly string[] => {
  const [weighed, unweighed] = ways.map(([way]) =>
    reliabilityBins(forecasts(run.simulation.calls, way), edges),
  )
  const all = edges.slice(1).map((high, place) => {
    const of = (list: readonly ReliabilityBin[] | undefined) => list?.find((b) => b.high === high)
    const range = `${percent(edges[place]!, 0)} to ${percent(high, 0)}`
    return [range].concat(cells(of(weighed)), cells(of(unweighed)))
  })
  const { calls: asked, benches, tally } = run.simulation
  return [
    `### ${run.world.name}`,
    '',
    `${run.world.how.charAt(0).toUpperCase()}${run.world.how.slice(1)}.`,
    `${asked.length} prints on ${benches} benches; ${tally.weighings} weighings for their ledgers and for`,
    `the prints, ${tally.flagged} of them surprising, ${tally.voided} voided.`,
    '',
    ...markdownTable(
      columns(
        'chance',
        'weighed',
        'stated',
        'finished',
        'points apart',
        'ledger alone',
        'stated',
        'finished',
        'points apart',
      ),
      all,
    ),
    '',
  ]
}

/** The section of the page about these runs. Every figure is from the simulations. */
export const shelfReport = (
  all: readonly ShelfRun[],
  command: string,
  machine: Machine,
): string => {
  const [meant, harder, elsewhere] = (['meant', 'harder', 'elsewhere'] as const).map((kind) =>
    all.filter((run) => run.kind === kind),
  ) as [ShelfRun[], ShelfRun[], ShelfRun[]]
  const runs = [...meant, ...harder, ...elsewhere]
  return [
    shelfHeading,
    '',
    `Written by \`${command} --write\` on ${machine.date}. What is simulated and how stands in`,
    '`test/verdict/simulated-shelf.ts`, the worlds in `test/verdict/shelf-worlds.ts`, what is found in',
    '`docs/method/shelf.md`. Points apart are finished less stated; their standard error keeps benches',
    'whole. The bins are those of 200 prints or more. The last world has no targets.',
    '',
    `As believed, or broader and uniform or with carriers of two kinds, the worst of ${named(meant)}:`,
    '',
    ...targets(meant),
    '',
    `Harder, of two kinds, skewed or unsteady in everything at once, the worst of ${named(harder)}:`,
    '',
    ...targets(harder),
    '',
    ...calls(runs),
    '',
    'Parts of the Brier score: score = reliability − resolution + uncertainty, but for the spread inside bins.',
    '',
    ...scores(runs),
    '',
    ...runs.flatMap(bins),
  ]
    .join('\n')
    .trimEnd()
}
