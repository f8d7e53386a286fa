import { mkdir } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { isCatalogueRow, isFact, type KeptJson } from '../contract/index.ts'
import { ledgerHeader, ledgerLine, ledgerTables } from '../ledger/index.ts'
import { tableCsv } from '../service/index.ts'
import type { Store } from '../store/index.ts'
import { cancelling } from './cancelling.ts'
import { usageFault } from './fault.ts'
import { ledgerFolder } from './ledger-folder.ts'
import { type LedgerText, needsLedger, withLedger } from './open-ledger.ts'
import { type Result, run } from './run.ts'
import { sayCount } from './say.ts'
import { harmless } from './terminal.ts'
import { wrap } from './wrap.ts'
import { isThere, targetExists, writeWhole } from './write-whole.ts'

/** What was typed after `export`. */
interface ExportText extends LedgerText {
  readonly tables?: string
  readonly overwrite?: boolean
}

type Size = Pick<KeptJson, 'facts' | 'rows' | 'prints'>

/** `reelreckon export`: the whole ledger as lines of JSON, or as tables. */
export const exportCommand = (file: string | undefined, typed: ExportText): Promise<void> =>
  run(typed.json === true, async () => {
    const { tables, overwrite = false, json = false } = typed
    if (tables !== undefined && file !== undefined) {
      throw usageFault(
        'too_much_to_export',
        'A FILE takes the lines and --tables the tables: give one of them.',
        '--tables',
      )
    }
    const toStdout = tables === undefined && (file === undefined || file === '-')
    if (toStdout && json) {
      throw usageFault(
        'json_of_lines',
        'The lines are JSON already. --json tells of a FILE that was written.',
        '--json',
      )
    }
    await needsLedger(typed.data)
    if (file !== undefined && !toStdout) await refuseLedger(file, typed.data)
    return withLedger(typed, ({ store, now }) =>
      cancelling(async (signal): Promise<Result> => {
        if (tables !== undefined) {
          const size = await writeTables(store, tables, overwrite, signal)
          return told(tables, size, json)
        }
        const counted = countedLines(store, now())
        if (toStdout) {
          await pipeline(counted.lines, process.stdout, { end: false })
          return { text: '', exit: 0 }
        }
        await writeWhole(file!, counted.lines, overwrite, signal)
        return told(file!, counted.size(), json)
      }),
    )
  })

/** To overwrite the ledger with its own export would lose its log, and break it for whoever has it open. */
const refuseLedger = async (file: string, data: string | undefined): Promise<void> => {
  const { isFileOfLedger, ledgerName } = await import('../store/index.ts')
  const ledger = join(resolve(await ledgerFolder(data)), ledgerName)
  if (!(await isFileOfLedger(resolve(file), ledger))) return
  throw usageFault(
    'target_is_ledger',
    `${harmless(file)} is the ledger itself, or a part of it, and was left as it is. Name another file.`,
  )
}

const told = (file: string, size: Size, json: boolean): Result => {
  const kept: KeptJson = { file, ...size, kept: null }
  const said = `Written to ${harmless(file)}: ${sayCount(size.facts, 'fact')}, ${sayCount(size.rows, 'catalogue row')}, ${sayCount(size.prints, 'print')}.`
  return { text: json ? `${JSON.stringify(kept, null, 2)}\n` : `${wrap(said, '  ')}\n`, exit: 0 }
}

const countedLines = (
  store: Store,
  now: number,
): { readonly lines: AsyncIterable<string>; readonly size: () => Size } => {
  let facts = 0
  let rows = 0
  let prints = 0
  async function* lines(): AsyncGenerator<string, void> {
    yield `${ledgerHeader(now)}\n`
    for await (const record of store.records()) {
      if (isFact(record)) facts++
      else if (isCatalogueRow(record)) rows++
      else prints++
      yield `${ledgerLine(record)}\n`
    }
  }
  return { lines: lines(), size: () => ({ facts, rows, prints }) }
}

const writeTables = async (
  store: Store,
  folder: string,
  overwrite: boolean,
  signal: AbortSignal,
): Promise<Size> => {
  const rows = await store.catalogue()
  const facts = await store.facts()
  const prints = await store.prints()
  const tables = ledgerTables(rows, facts, prints)
  await mkdir(folder, { recursive: true })
  const files = tables.map(({ name }) => join(folder, `${name}.csv`))
  if (!overwrite) {
    // Before the first is written: half the tables would be worse than none.
    const there = await Promise.all(files.map(isThere))
    const first = files.find((_, place) => there[place])
    if (first !== undefined) throw targetExists(first)
  }
  for (const [place, table] of tables.entries()) {
    // oxlint-disable-next-line no-await-in-loop -- so Ctrl-C finds each of them whole
    await writeWhole(files[place]!, [await tableCsv(table)], overwrite, signal)
  }
  return { facts: facts.length, rows: rows.length, prints: prints.length }
}
