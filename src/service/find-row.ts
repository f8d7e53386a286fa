import {
  type CatalogueRowJson,
  idLength,
  type MakeRowJson,
  type MaterialRowJson,
  type PersonRowJson,
  type PrinterRowJson,
  readId,
  type ScaleRowJson,
  type WaitingRowJson,
} from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'

interface Rows {
  readonly material: MaterialRowJson
  readonly make: MakeRowJson
  readonly printer: PrinterRowJson
  readonly scale: ScaleRowJson
  readonly person: PersonRowJson
  readonly waiting: WaitingRowJson
}

/** Kinds of rows that people speak of by name. */
export type RowKind = keyof Rows
/** Those that are set up once and stay. */
export type NamedKind = Exclude<RowKind, 'waiting'>
/** A row of a kind. */
export type RowOf<K extends RowKind> = Rows[K]

/** Rows of one kind; those no longer in use too. */
export const rowsOf = <K extends RowKind>(
  rows: readonly CatalogueRowJson[],
  kind: K,
): readonly RowOf<K>[] =>
  rows.filter((row) => row.kind === kind) as readonly CatalogueRowJson[] as readonly RowOf<K>[]

/** A row as a person calls it: maker and name for a make. */
export const rowName = (row: RowOf<RowKind>): string =>
  row.kind === 'make' ? `${row.maker} ${row.name}` : row.name

/** A name as names are compared. */
export const folded = (text: string): string =>
  text.normalize('NFC').trim().replaceAll(/\s+/g, ' ').toLowerCase()

/**
 * The row a person means, by id or by name in any case; a make by its name alone, too.
 *
 * @returns `KIND_unknown` with those there are, `name_ambiguous` with the candidates
 */
export const findRow = <K extends RowKind>(
  rows: readonly CatalogueRowJson[],
  kind: K,
  typed: string,
): Outcome<RowOf<K>> => {
  const all = rowsOf(rows, kind)
  const id = readId(typed, idLength.row)
  const byId = id.ok ? all.find((row) => row.id === id.value) : undefined
  if (byId !== undefined) return accept(byId)
  const name = folded(typed)
  const whole = all.filter((row) => folded(rowName(row)) === name)
  const found = whole.length > 0 ? whole : all.filter((row) => folded(row.name) === name)
  const [one, ...more] = found
  if (one !== undefined && more.length === 0) return accept(one)
  if (one !== undefined) {
    return refuse({
      code: 'name_ambiguous',
      message: `"${typed}" may be any of these; give the id:${listed(found)}`,
      received: typed,
    })
  }
  return refuse({
    code: `${kind}_unknown`,
    message:
      all.length === 0
        ? `There is no ${calledOf(kind)} "${typed}": none has been set up.`
        : `There is no ${calledOf(kind)} "${typed}". There ${all.length === 1 ? 'is' : 'are'}${listed(all)}`,
    ...(all.length > 0 && { expected: all.map(rowName).join(', ') }),
    received: typed,
  })
}

const calledOf = (kind: RowKind): string => (kind === 'waiting' ? 'waiting print' : kind)

const most = 12

const listed = (rows: readonly RowOf<RowKind>[]): string => {
  const lines = rows.slice(0, most).map((row) => `\n  ${row.id}  ${rowName(row)}`)
  const more = rows.length - most
  return lines.join('') + (more > 0 ? `\n  and ${more} more` : '')
}
