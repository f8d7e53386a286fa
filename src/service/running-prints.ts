import type {
  CatalogueRowJson,
  FactJson,
  RunningPrintsJson,
  RunningRowJson,
} from '../contract/index.ts'
import type { Store } from '../store/index.ts'
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
  const known = new Set(facts.map(({ id }) => id))
  return open.filter(({ id }) => !known.has(id))
}

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
