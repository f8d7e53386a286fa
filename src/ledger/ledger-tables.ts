import {
  type CatalogueRowJson,
  type FactJson,
  type MeasuredJson,
  type PrintRowJson,
  type RunningReelJson,
  type WeighingJson,
} from '../contract/index.ts'
import { catalogueOf } from './catalogue.ts'
import { describeFact } from './describe-fact.ts'
import { ledgerNames } from './ledger-names.ts'
import { type Cell, plainCell } from './plain-cell.ts'
import { type ReelCard, reelCards } from './reel-cards.ts'
import { reelOfFact } from './reel-histories.ts'
import { standingFacts } from './standing-facts.ts'

/** A table for a spreadsheet; units stand in the names of its columns. */
export interface LedgerTable {
  /** `reels`, `facts`, `makes`, `printers`, `scales`, `people`, `materials`, `slate`, `running` or `prints`. */
  readonly name: string
  readonly columns: readonly string[]
  /** As many cells a row as there are columns; '' for nothing. */
  readonly rows: readonly (readonly Cell[])[]
}

/** What is kept of a print, with or without its curves. */
export type PrintHeadingRow = Pick<PrintRowJson, 'id' | 'changed_at' | 'file' | 'bytes'>

/**
 * The ledger as tables, for reading: the ledger itself is its NDJSON. Texts that a spreadsheet would
 * take for formulas have an apostrophe before them.
 *
 * @param facts - in the order written down; voided ones are in the table, and say by which fact
 */
export const ledgerTables = (
  rows: readonly CatalogueRowJson[],
  facts: readonly FactJson[],
  prints: readonly PrintHeadingRow[],
): readonly LedgerTable[] => {
  const { makes, printers, scales, people, materials, waiting, running } = catalogueOf(rows)
  const names = ledgerNames(rows, prints)
  const { voided } = standingFacts(facts)
  return [
    table('reels', reelColumns, reelCards(rows, facts)),
    table(
      'facts',
      [
        ...factColumns,
        ['voided_by', ({ id }: FactJson) => voided.get(id)?.id],
        ['in_words', (fact: FactJson) => describeFact(fact, names)],
      ],
      facts,
    ),
    table(
      'makes',
      [
        ['id', ({ id }) => id],
        ['maker', ({ maker }) => maker],
        ['name', ({ name }) => name],
        ['material', ({ material }) => materials.get(material ?? '')?.name ?? material],
        ['nominal_diameter_mm', (row) => row.nominal_diameter_mm],
        ['label_net_g', (row) => row.label_net_g],
        ['carrier', ({ carrier }) => carrier],
        ...rowEnd,
      ],
      makes.values(),
    ),
    table(
      'printers',
      [
        ['id', ({ id }) => id],
        ['name', ({ name }) => name],
        ['firmware', ({ firmware }) => firmware],
        ...pair('feed_factor', '', (row: { feed_factor?: MeasuredJson }) => row.feed_factor),
        ...pair(
          'start_allowance',
          '_mm',
          (row: { start_allowance_mm?: MeasuredJson }) => row.start_allowance_mm,
        ),
        ...pair('tail', '_mm', (row: { tail_mm?: MeasuredJson }) => row.tail_mm),
        ...pair('change', '_mm', (row: { change_mm?: MeasuredJson }) => row.change_mm),
        ['retired', ({ retired }) => yes(retired)],
        ...rowEnd,
      ],
      printers.values(),
    ),
    table(
      'scales',
      [
        ['id', ({ id }) => id],
        ['name', ({ name }) => name],
        ['step_g', (row) => row.step_g],
        ['repeatability_g', (row) => row.repeatability_g],
        ['gain', ({ gain }) => gain],
        ['retired', ({ retired }) => yes(retired)],
        ...rowEnd,
      ],
      scales.values(),
    ),
    table(
      'people',
      [['id', ({ id }) => id], ['name', ({ name }) => name], ...rowEnd],
      people.values(),
    ),
    table(
      'materials',
      [
        ['id', ({ id }) => id],
        ['name', ({ name }) => name],
        ...pair(
          'density',
          '_g_per_cm3',
          (row: { density_g_per_cm3?: MeasuredJson }) => row.density_g_per_cm3,
        ),
        ...pair('water_share', '', (row: { water_share?: MeasuredJson }) => row.water_share),
        ...rowEnd,
      ],
      materials.values(),
    ),
    table(
      'slate',
      [
        ['id', ({ id }) => id],
        ['name', ({ name }) => name],
        ['print', ({ print }) => names.print(print)],
        ['copies', ({ copies }) => copies],
        ['done', ({ done }) => done ?? 0],
        ['off', ({ off }) => yes(off)],
        ['importance', ({ importance }) => importance],
        ['due', ({ due }) => due],
        ['duration_h', (row) => row.duration_h],
        ['added_at', (row) => row.added_at],
        ...rowEnd,
      ],
      waiting.values(),
    ),
    table(
      'running',
      [
        ['id', ({ id }) => id],
        ['print', ({ print }) => names.print(print)],
        ['printer', ({ printer }) => names.printer(printer)],
        ['started_at', (row) => row.started_at],
        ['reels', ({ reels }) => reels.map(reelRunning).join(', ')],
        ['takes_s', ({ takes }) => takes?.likely_s ?? undefined],
        ['ended', ({ ended }) => ended],
        ...rowEnd,
      ],
      running.values(),
    ),
    table(
      'prints',
      [
        ['id', ({ id }) => id],
        ['file', ({ file }) => file],
        ['bytes', ({ bytes }) => bytes],
        ['changed_at', (row) => row.changed_at],
      ],
      prints,
    ),
  ]
}

const reelRunning = ({ tool, reel, after_layer, ran_dry }: RunningReelJson): string =>
  [
    `T${tool} ${reel}`,
    ...(after_layer === undefined ? [] : [`after layer ${after_layer}`]),
    ...(ran_dry === true ? ['ran dry'] : []),
  ].join(' ')

type Column<T> = readonly [name: string, cell: (row: T) => Cell | undefined]

const table = <T>(name: string, columns: readonly Column<T>[], rows: Iterable<T>): LedgerTable => ({
  name,
  columns: columns.map(([head]) => head),
  rows: Array.from(rows, (row) => columns.map(([, cell]) => plainCell(cell(row) ?? ''))),
})

const yes = (flag: true | undefined): string => (flag === true ? 'yes' : '')

/** Value and standard uncertainty of something, side by side: `tail_mm`, `tail_u_mm`. */
const pair = <T>(
  name: string,
  unit: string,
  of: (row: T) => MeasuredJson | undefined,
): readonly Column<T>[] => [
  [`${name}${unit}`, (row) => of(row)?.value],
  [`${name}_u${unit}`, (row) => of(row)?.u],
]

const rowEnd: readonly Column<{ readonly changed_at: string; readonly note?: string }>[] = [
  ['changed_at', (row) => row.changed_at],
  ['note', ({ note }) => note],
]

const reelColumns: readonly Column<ReelCard>[] = [
  ['id', ({ id }) => id],
  ['state', ({ state }) => state],
  ['make', ({ opened }) => opened.make],
  ['maker', ({ make }) => make?.maker],
  ['name', ({ make }) => make?.name],
  ['material', ({ make }) => make?.material],
  ['colour', ({ colour }) => colour?.name],
  ['srgb', ({ colour }) => colour?.srgb],
  ['lot', ({ lot }) => lot],
  ['place', ({ place }) => place],
  ['price', ({ price }) => (price === undefined ? undefined : Number(price.amount))],
  ['currency', ({ price }) => price?.currency],
  ['label_net_g', ({ opened, make }) => opened.label_net_g ?? make?.label_net_g],
  ['last_gross_g', ({ lastWeighing }) => lastWeighing?.weighing.reading_g],
  ['last_weighed_at', ({ lastWeighing }) => lastWeighing?.at],
  ['opened_at', ({ openedAt }) => openedAt],
  ['touched_at', ({ touchedAt }) => touchedAt],
]

const weighingIn = (fact: FactJson): WeighingJson | undefined => {
  if ('weighing' in fact) return fact.weighing
  if (fact.kind === 'opened') return fact.gross_when_new
  return fact.kind === 'measured' ? fact.cut?.weighing : undefined
}

const lengthIn = (fact: FactJson): number | undefined => {
  if (fact.kind === 'drew') return fact.length_mm
  if (fact.kind === 'trimmed') return fact.length_mm?.value
  return fact.kind === 'ran-dry' ? fact.tail_mm?.value : undefined
}

const factColumns: readonly Column<FactJson>[] = [
  ['id', ({ id }) => id],
  ['at', ({ at }) => at],
  ['recorded_at', (fact) => fact.recorded_at],
  ['by', ({ by }) => by],
  ['kind', ({ kind }) => kind],
  ['reel', (fact) => reelOfFact(fact)],
  ['make', (fact) => ('make' in fact ? fact.make : undefined)],
  ['printer', (fact) => ('printer' in fact ? fact.printer : undefined)],
  ['scale', (fact) => weighingIn(fact)?.scale],
  ['reading_g', (fact) => weighingIn(fact)?.reading_g],
  ['extra_g', (fact) => weighingIn(fact)?.extra_g?.value],
  ['length_mm', lengthIn],
  ['share', (fact) => (fact.kind === 'drew' ? (fact.share?.value ?? 1) : undefined)],
  ['print', (fact) => (fact.kind === 'drew' ? fact.print : undefined)],
  ['mass_g', (fact) => (fact.kind === 'trimmed' ? fact.mass_g?.value : undefined)],
  ['place', (fact) => (fact.kind === 'moved' ? fact.place : undefined)],
  ['note', ({ note }) => note],
]
