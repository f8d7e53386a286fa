import type {
  CatalogueRowJson,
  FactJson,
  RunningPrintsJson,
  RunningRowJson,
} from '../contract/index.ts'
import type { Store } from '../store/index.ts'
import { rowsOf } from './find-row.ts'
import { printsOfSlate } from './prints-of-slate.ts'

/** Rows that do not say that they ended, the print started first first. */
const notEnded = (rows: readonly CatalogueRowJson[]): readonly RunningRowJson[] =>
  rows
    .filter((row): row is RunningRowJson => row.kind === 'running' && row.ended === undefined)
    .toSorted(
      (a, b) =>
        a.started_at.localeCompare(b.started_at) || a.recorded_at.localeCompare(b.recorded_at),
    )

/**
 * The prints that run, the one started first first. A fact of its id says that one has ended, even where
 * it came by an import or does not hold any more.
 */
export const runningOf = (
  rows: readonly CatalogueRowJson[],
  facts: readonly FactJson[],
): readonly RunningRowJson[] => {
  const open = notEnded(rows)
  if (open.length === 0) return []
  const ids = new Set(open.map(({ id }) => id))
  const ended = new Set(facts.flatMap(({ id }) => (ids.has(id) ? [id] : [])))
  return open.filter(({ id }) => !ended.has(id))
}

/**
 * By the id of each reel that feeds, or fed, a print that runs: the names of the printers. What such a print
 * takes is off its reels only when it is recorded.
 */
export const feedingOf = (
  rows: readonly CatalogueRowJson[],
  facts: readonly FactJson[],
): ReadonlyMap<string, readonly string[]> => {
  const feeding = new Map<string, Set<string>>()
  for (const { printer, reels } of runningOf(rows, facts)) {
    const name = rowsOf(rows, 'printer').find(({ id }) => id === printer)?.name ?? printer
    for (const { reel } of reels) feeding.set(reel, (feeding.get(reel) ?? new Set()).add(name))
  }
  return new Map([...feeding].map(([reel, names]) => [reel, [...names]]))
}

/** What is said of a reel that feeds a print which runs. */
export const feedsPrint = (reel: string, printer: string): string =>
  `A print that was started on ${printer} feeds from reel ${reel} and is not recorded yet: what it takes still counts as being on the reel.`

/** The prints that run with what is known of their files. */
export const tellRunning = async (
  store: Pick<Store, 'catalogue' | 'fact' | 'print' | 'prints'>,
): Promise<RunningPrintsJson> => {
  const open = notEnded(await store.catalogue())
  const facts = await Promise.all(open.map(({ id }) => store.fact(id)))
  const rows = open.filter((_, place) => facts[place] === undefined)
  const prints = rows.length === 0 ? new Map() : await printsOfSlate(store, rows)
  return {
    running: rows.map((row) => {
      const print = prints.get(row.print)
      if (print === undefined) return { row, file: null, layers: null }
      const { spiral, height_mm } = print.layers
      return {
        row,
        file: print.file,
        layers: { spiral, height_mm: Array.from(height_mm, hundredths) },
      }
    }),
  }
}

const hundredths = (value: number): number => Math.round(value * 100) / 100
