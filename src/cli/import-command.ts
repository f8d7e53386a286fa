import {
  type ImportJson,
  isFact,
  type LedgerRecord,
  type References,
  referencesOf,
  whatIsMissing,
} from '../contract/index.ts'
import { defaultShelfPriors } from '../estimate/index.ts'
import { editPriors } from '../ledger/index.ts'
import {
  findRow,
  importRecords,
  type ReelOfTable,
  readLedgerLines,
  withNets,
  withoutLine,
} from '../service/index.ts'
import type { Appended, Store } from '../store/index.ts'
import type { Outcome, Refusal } from '../units/index.ts'
import { cancelling } from './cancelling.ts'
import { refusedFile } from './fault.ts'
import { importReport } from './import-report.ts'
import {
  answered,
  beginningNone,
  type LedgerText,
  type OpenLedger,
  withLedger,
} from './open-ledger.ts'
import { readLines, stopIfCancelled } from './read-lines.ts'
import { reelsOfTable, type TableText } from './reels-of-table.ts'
import { type Result, run } from './run.ts'
import { taken } from './taken.ts'

/** What was typed after `import`. */
interface ImportText extends LedgerText, TableText {
  readonly dryRun?: boolean
  readonly skipBad?: boolean
}

/** What there is to take over. */
export interface Imported extends Pick<ImportJson, 'skipped' | 'columns'> {
  readonly reels: readonly ReelOfTable[]
  readonly records: readonly LedgerRecord[]
  /** Of the ledger that a table was held against; lines of a ledger bring all that they speak of. */
  readonly ifRevision?: number
  /** Line of each fact of a ledger, by its id. */
  readonly lineOf?: ReadonlyMap<string, number>
  /** How each column was understood, and which priors were not, in sentences. */
  readonly said: readonly string[]
}

/** `reelreckon import`: lines of another ledger, or reels out of a table. */
export const importCommand = (file: string, typed: ImportText): Promise<void> =>
  run(typed.json === true, () =>
    cancelling(async (signal) => {
      const lines = await allLines(file, signal)
      const isLedger = /^\uFEFF?\s*\{/.test(lines.find((line) => line.trim() !== '') ?? '')
      // A rehearsal begins no ledger where there is none.
      const open = typed.dryRun === true ? beginningNone : withLedger
      return open(typed, async (ledger): Promise<Result> => {
        const found = isLedger
          ? recordsOf(file, lines, typed.skipBad === true)
          : await reelsOfTable(file, lines.join('\n'), typed, await scaled(ledger, typed))
        stopIfCancelled(signal, file)
        const appended =
          found.records.length === 0
            ? { written: 0, same: 0, older: 0, reels: [] }
            : await append(ledger.store, file, found, typed.dryRun === true)
        const { records: _, ifRevision: _revision, lineOf: _lines, said, ...parts } = found
        const answer: ImportJson = {
          file,
          dry_run: typed.dryRun === true,
          ...parts,
          ...appended,
        }
        const text =
          typed.json === true ? `${JSON.stringify(answer, null, 2)}\n` : importReport(answer, said)
        return { text, exit: 0 }
      })
    }),
  )

const append = async (
  store: Store,
  file: string,
  { records, reels, ifRevision, lineOf }: Imported,
  isRehearsal: boolean,
): Promise<Appended & Pick<ImportJson, 'reels'>> => {
  const ofFile = <T>(outcome: Outcome<T>): T => {
    if (outcome.ok || outcome.refusal.code !== 'unknown_reference') return answered(outcome)
    throw refusedFile(file, lacking(outcome.refusal, records, lineOf))
  }
  if (!isRehearsal) {
    const guard = ifRevision === undefined ? {} : { ifRevision }
    const appended = ofFile(await importRecords(store, records, undefined, guard))
    return { ...appended, reels: await withNets(store, reels) }
  }
  const { openMemoryStore } = await import('../store/index.ts')
  const rehearsal = answered(await openMemoryStore())
  try {
    const appended = ofFile(await importRecords(store, records, rehearsal))
    return { ...appended, reels: await withNets(rehearsal, reels) }
  } finally {
    await rehearsal.close()
  }
}

/** A fact of a file that names what neither the file nor the ledger has. */
const lacking = (
  { code, expected, received }: Refusal,
  records: readonly LedgerRecord[],
  lineOf: Imported['lineOf'],
): Refusal => {
  const what = expected as keyof References
  const fact = records.filter(isFact).find((one) => referencesOf(one)[what] === received)
  const line = lineOf?.get(fact?.id ?? '')
  return {
    code,
    message: `The fact ${fact?.id} (${fact?.kind}) names ${whatIsMissing[what]}: ${received}. Nothing was written. Give the file whole, as export writes it.`,
    ...(expected !== undefined && { expected }),
    ...(received !== undefined && { received }),
    ...(line !== undefined && { line }),
  }
}

const allLines = async (file: string, signal: AbortSignal): Promise<readonly string[]> => {
  const batches: (readonly string[])[] = []
  for await (const lines of readLines(file, signal)) batches.push(lines)
  return batches.flat()
}

const recordsOf = (file: string, lines: readonly string[], skipBad: boolean): Imported => {
  const read = readLedgerLines(lines, skipBad)
  if (!read.ok) {
    throw refusedFile(file, { ...read.refusal, message: withoutLine(read.refusal) })
  }
  const { records } = read.value
  return { ...read.value, reels: [], columns: [], said: records.flatMap(unknownPriors) }
}

/** They are kept, since another version may know them; reckoned with they are not. */
const unknownPriors = (record: LedgerRecord): readonly string[] => {
  if (record.kind !== 'priors') return []
  const edited = editPriors(defaultShelfPriors, record.priors)
  return edited.ok ? [] : [`${edited.refusal.message} The usual priors are taken.`]
}

/** The ledger with the scale that the table's weighings were made on. */
const scaled = async (
  ledger: OpenLedger,
  { scale }: ImportText,
): Promise<OpenLedger & { readonly scale?: string }> => {
  const rows = await ledger.store.catalogue()
  if (scale !== undefined) {
    return { ...ledger, scale: taken(findRow(rows, 'scale', scale), '--scale').id }
  }
  const [one, ...more] = rows.filter((row) => row.kind === 'scale' && row.retired !== true)
  return one !== undefined && more.length === 0 ? { ...ledger, scale: one.id } : ledger
}
