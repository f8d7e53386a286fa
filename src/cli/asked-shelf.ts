import type { LedgerRecord, PrintRowJson } from '../contract/index.ts'
import { isCatalogueRow, isFact, isPrintRow } from '../contract/index.ts'
import { type ShelfView, shelfView, viewOf } from '../service/index.ts'
import type { PrintHeading } from '../store/index.ts'
import { usageFault } from './fault.ts'
import { isLedgerThere } from './ledger-folder.ts'
import { answered, type LedgerText, needsLedger, withLedger } from './open-ledger.ts'
import { readLedgerFile } from './read-ledger-file.ts'

/** What every command that only asks the ledger takes. */
export interface AskText extends LedgerText {
  readonly ledger?: string
}

/** The shelf as a command that only asks sees it. */
export interface AskedShelf {
  readonly view: ShelfView
  readonly prints: readonly PrintHeading[]
  /** Milliseconds since 1970. */
  readonly now: number
  /** False where nobody has begun a ledger in the usual place yet; the view is empty then. */
  readonly found: boolean
}

/**
 * The shelf, of the ledger or of a file of facts. Nothing is written, and no ledger is begun.
 *
 * @throws Fault: exit code 4 where the ledger can not be opened, 3 for an unreadable file, 2 where a folder
 *   that was named has no ledger
 */
export const askedShelf = async (typed: AskText): Promise<AskedShelf> => {
  const { ledger, data } = typed
  if (ledger !== undefined) {
    if (data !== undefined) {
      throw usageFault(
        'ledger_twice',
        '--ledger and --data both say where the facts are. Give one of them.',
        '--ledger',
      )
    }
    return ofRecords(await readLedgerFile(ledger))
  }
  if (data !== undefined) await needsLedger(data)
  if (!(await isLedgerThere(data))) {
    return { view: answered(viewOf([], [], 0)), prints: [], now: Date.now(), found: false }
  }
  return withLedger(typed, async ({ store, now }) => ({
    view: answered(await shelfView(store)),
    prints: await store.prints(),
    now: now(),
    found: true,
  }))
}

const ofRecords = (records: readonly LedgerRecord[]): AskedShelf => ({
  view: answered(viewOf(records.filter(isCatalogueRow), records.filter(isFact), 0)),
  prints: records.filter((record): record is PrintRowJson => isPrintRow(record)),
  now: Date.now(),
  found: true,
})
