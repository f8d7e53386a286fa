import type { CatalogueRowJson } from '../contract/index.ts'
import {
  addRow,
  changeRow,
  listRows,
  type NamedKind,
  type RowOf,
  type RowTold,
} from '../service/index.ts'
import {
  answered,
  type LedgerText,
  lookingAtLedger,
  type OpenLedger,
  withLedger,
} from './open-ledger.ts'
import { jsonText, recordCommand } from './record-command.ts'
import { run } from './run.ts'
import { harmless } from './terminal.ts'
import { textTable } from './text-table.ts'

/** Sets up a row. */
export const addCommand = <K extends NamedKind>(
  kind: K,
  typed: LedgerText,
  told: (ledger: OpenLedger) => Promise<RowTold<K>>,
): Promise<void> =>
  recordCommand(typed, async (ledger) => addRow(ledger, kind, await told(ledger)), [], withLedger)

/** Changes a row. */
export const changeCommand = <K extends NamedKind>(
  kind: K,
  name: string,
  typed: LedgerText,
  told: (ledger: OpenLedger) => Promise<Partial<RowTold<K>>>,
): Promise<void> =>
  recordCommand(typed, async (ledger) => changeRow(ledger, kind, name, await told(ledger)))

/** Lists the rows of a kind in a table. */
export const listCommand = <K extends NamedKind>(
  kind: K,
  typed: LedgerText,
  head: readonly string[],
  cells: (row: RowOf<K>, all: readonly CatalogueRowJson[]) => readonly string[],
): Promise<void> =>
  listAs(kind, typed, (rows, all) =>
    textTable(
      ['id', ...head],
      rows.map((row) => [row.id, ...cells(row, all)].map(harmless)),
    ).trimEnd(),
  )

/** Lists the rows of a kind. */
export const listAs = <K extends NamedKind>(
  kind: K,
  typed: LedgerText,
  text: (rows: readonly RowOf<K>[], all: readonly CatalogueRowJson[]) => string,
): Promise<void> =>
  run(typed.json === true, () =>
    lookingAtLedger(typed, async (ledger) => {
      const rows = answered(await listRows(ledger, kind))
      if (typed.json === true) return { text: jsonText({ rows }), exit: 0 }
      if (rows.length === 0) {
        return {
          text: `None has been set up. See reelreckon ${kind} add --help.\n`,
          exit: 0,
        }
      }
      return { text: `${text(rows, await ledger.store.catalogue())}\n`, exit: 0 }
    }),
  )
