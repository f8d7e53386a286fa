import { type CatalogueRowJson, showId } from '../contract/index.ts'
import { catalogueOf } from './catalogue.ts'

/** What people call the things that facts speak of, by id. An id that nobody knows is shown itself. */
export interface LedgerNames {
  readonly make: (id: string) => string
  readonly printer: (id: string) => string
  readonly scale: (id: string) => string
  readonly person: (id: string) => string
  /** Name of the file of a print. */
  readonly print: (id: string) => string
}

/** @param prints - the kept prints, or only their headings */
export const ledgerNames = (
  rows: Iterable<CatalogueRowJson>,
  prints: Iterable<{ readonly id: string; readonly file: string }> = [],
): LedgerNames => {
  const { makes, printers, scales, people } = catalogueOf(rows)
  const files = new Map(Array.from(prints, ({ id, file }) => [id, file]))
  return {
    make: (id) => {
      const make = makes.get(id)
      return make === undefined ? showId(id) : `${make.maker} ${make.name}`
    },
    printer: (id) => printers.get(id)?.name ?? showId(id),
    scale: (id) => scales.get(id)?.name ?? showId(id),
    person: (id) => people.get(id)?.name ?? showId(id),
    print: (id) => files.get(id) ?? `${id.slice(0, 12)}…`,
  }
}
