// oxlint-disable no-await-in-loop -- one append after another is what is timed
import { mkdtempSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gunzipSync, gzipSync } from 'node:zlib'
import SqliteDatabase from 'better-sqlite3'
import { tackleBox } from '../demo/prints/tackle-box.ts'
import type { LedgerRecord } from '../src/contract/index.ts'
import { readPrint } from '../src/print/index.ts'
import { backUp, openStore, restore } from '../src/store/index.ts'
import { catalogue, opening, printRow, weighing } from '../test/store/records.ts'
import { markdownTable } from './markdown-table.ts'

/*
 * Times of the ledger in SQLite, on the disk of the system's temporary folder:
 *
 *     node benchmarks/store-speed.ts
 *
 * Facts are weighings; what is written is synced each time it is acknowledged.
 */

const home = mkdtempSync(join(tmpdir(), 'reelreckon-store-speed-'))
const rows: string[][] = []
const timed = async <T>(what: string, work: () => Promise<T>, per = 1): Promise<T> => {
  const begin = performance.now()
  const value = await work()
  rows.push([what, `${((performance.now() - begin) / per).toPrecision(3)} ms`])
  return value
}

const many = (count: number): LedgerRecord[] =>
  Array.from({ length: count }, (_, place) => weighing(place + 1))

/** The largest demo print, with every column that is kept. */
const keptPrint = (): object => {
  const reading = readPrint([new TextEncoder().encode(tackleBox.write())])
  if (!reading.ok) throw new Error(reading.refusal.message)
  const { families, layers } = reading.value
  const plain = { ...printRow(), families, layers }
  return JSON.parse(
    JSON.stringify(plain, (_, value: unknown) =>
      ArrayBuffer.isView(value) ? columnOf(value) : value,
    ),
  ) as object
}
const columnOf = (value: ArrayBufferView): readonly number[] =>
  Array.from(value as Float64Array | Int32Array)

try {
  const folder = join(home, 'ledger')
  const file = join(folder, 'ledger.sqlite')
  const opened = await timed('begin a ledger', () => openStore(folder))
  if (!opened.ok) throw new Error(opened.refusal.message)
  const store = opened.value
  await store.append([...catalogue, opening()])
  const one = many(300)
  await timed(
    'append 1 fact',
    async () => {
      for (const fact of one) await store.append([fact])
    },
    one.length,
  )
  const lots = many(100_000)
  await timed('append 100 000 facts in calls of 1000', async () => {
    for (let from = 0; from < lots.length; from += 1000) {
      await store.append(lots.slice(from, from + 1000))
    }
  })
  await timed('read 100 000 facts', () => store.facts())
  await store.close()
  rows.push(['size with 100 000 facts', `${(statSync(file).size / 2 ** 20).toFixed(1)} MiB`])

  const raw = new SqliteDatabase(file)
  await timed('quick_check of that', async () => raw.pragma('quick_check(1)'))
  raw.close()
  await timed('open it', async () => {
    const again = await openStore(folder)
    if (again.ok) await again.value.close()
  })
  const backup = join(home, 'backup')
  await timed('back it up', () => backUp(folder, backup))
  await timed('restore it', () => restore(backup, folder))

  const body = JSON.stringify(keptPrint())
  const packed = await timed('gzip a print', async () => gzipSync(body))
  await timed('gunzip it', async () => gunzipSync(packed))
  const share = ((100 * packed.length) / body.length).toFixed(0)
  rows.push(['its size, gzipped', `${share} % of ${body.length} bytes`])
  const columns = [
    { heading: 'what', figures: false },
    { heading: 'takes', figures: true },
  ]
  console.log(markdownTable(columns, rows).join('\n'))
} finally {
  rmSync(home, { recursive: true })
}
