// oxlint-disable no-await-in-loop -- one step after another is what is tested
import { linkSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import SqliteDatabase from 'better-sqlite3'
import { describe, expect, test } from 'vitest'
import { ledgerHeader } from '../../src/ledger/index.ts'
import { backUp, type CopyProgress, openStore, restore, type Store } from '../../src/store/index.ts'
import { filledStore, folders, spoil } from './ledger-folders.ts'
import { printRow, weighing } from './records.ts'
import { codeOf, gathered, valueOf } from './store-suite.ts'

const newFolder = folders('backup')
const now = (): number => Date.UTC(2026, 2, 1, 18, 30)

const filled = async (facts = 30): Promise<{ folder: string; store: Store }> => {
  const folder = newFolder()
  return { folder, store: await filledStore(folder, facts) }
}

describe('a backup', () => {
  test('holds everything, in one file, and is restored to the same', async () => {
    const { folder, store } = await filled()
    const target = join(newFolder(), 'monday.sqlite')
    expect(valueOf(await backUp(folder, target))).toEqual({ facts: 31, rows: 5, prints: 1 })
    expect(readdirSync(join(target, '..'))).toEqual(['monday.sqlite'])
    const all = await gathered(store.records())
    const id = await store.ledgerId()
    await store.close()

    const elsewhere = join(newFolder(), 'new')
    expect(valueOf(await restore(target, elsewhere))).toEqual({ facts: 31, rows: 5, prints: 1 })
    const restored = valueOf(await openStore(elsewhere))
    expect(await gathered(restored.records())).toEqual(all)
    expect(await restored.ledgerId()).toBe(id)
    valueOf(await restored.append([weighing(1)]))
    await restored.close()
  })

  test('is of one moment while others write', async () => {
    const { folder, store } = await filled(20_000)
    const target = join(newFolder(), 'busy.sqlite')
    const seen: CopyProgress[] = []
    let written = 0
    const writing: Promise<unknown>[] = []
    const size = valueOf(
      await backUp(folder, target, {
        progress: (at) => {
          seen.push(at)
          writing.push(store.append([weighing(9)]))
          written++
        },
      }),
    )
    await Promise.all(writing)
    expect(size.facts).toBe(20_001)
    expect(written).toBeGreaterThan(2)
    expect(await store.facts()).toHaveLength(20_001 + written)
    expect(seen.at(-1)?.phase).toBe('checking')
    expect(seen.every(({ done, of }) => done <= of)).toBe(true)
    await store.close()
  })

  test('is stopped as asked, and leaves nothing behind', async () => {
    const { folder, store } = await filled(20_000)
    const place = newFolder()
    const stop = new AbortController()
    const outcome = await backUp(folder, join(place, 'never.sqlite'), {
      signal: stop.signal,
      progress: () => stop.abort(),
    })
    expect(codeOf(outcome)).toBe('cancelled')
    expect(readdirSync(place)).toEqual([])
    valueOf(await store.append([weighing(3)]))
    await store.close()
  })

  test('takes nobody’s place unless asked to', async () => {
    const { folder, store } = await filled()
    const target = join(newFolder(), 'taken')
    writeFileSync(target, 'letters')
    expect(codeOf(await backUp(folder, target))).toBe('target_exists')
    expect(readFileSync(target, 'utf8')).toBe('letters')
    valueOf(await backUp(folder, target, { overwrite: true }))
    expect(readdirSync(join(target, '..'))).toEqual(['taken'])
    valueOf(await restore(target, newFolder()))
    await store.close()
  })

  test.each(['ledger.sqlite', 'ledger.sqlite-wal', 'ledger.sqlite-shm', 'ledger.sqlite-journal'])(
    'does not take the place of its own ledger: %s',
    async (name) => {
      const { folder, store } = await filled()
      const link = join(newFolder(), 'elsewhere')
      symlinkSync(folder, link)
      const names = readdirSync(folder)
      for (const place of [folder, link]) {
        const outcome = await backUp(folder, join(place, name), { overwrite: true })
        expect(codeOf(outcome)).toBe('target_is_ledger')
      }
      valueOf(await store.append([weighing(3)]))
      await store.close()
      const again = valueOf(await openStore(folder))
      expect(await again.facts()).toHaveLength(32)
      expect(readdirSync(folder)).toEqual(names)
      await again.close()
    },
  )

  test('does not take the place of a file that leads to its ledger', async () => {
    const { folder, store } = await filled()
    const place = newFolder()
    symlinkSync(join(folder, 'ledger.sqlite'), join(place, 'soft'))
    linkSync(join(folder, 'ledger.sqlite'), join(place, 'hard'))
    for (const name of ['soft', 'hard']) {
      const outcome = await backUp(folder, join(place, name), { overwrite: true })
      expect(codeOf(outcome)).toBe('target_is_ledger')
    }
    await store.close()
  })

  test.each([true, false])('takes no folder for a file, overwriting %s', async (overwrite) => {
    const { folder, store } = await filled()
    const place = newFolder()
    expect(codeOf(await backUp(folder, place, { overwrite }))).toBe('target_is_folder')
    expect(readdirSync(place)).toEqual([])
    await store.close()
  })

  test('is not made of what is not there, and not where nothing is', async () => {
    const { folder, store } = await filled()
    expect(codeOf(await backUp(newFolder(), join(newFolder(), 'x')))).toBe('no_ledger')
    expect(codeOf(await backUp(folder, join(newFolder(), 'no', 'x')))).toBe('no_target_folder')
    await store.close()
  })

  test('is not made of a damaged ledger', async () => {
    const { folder, store } = await filled(20_000)
    await store.close()
    spoil(join(folder, 'ledger.sqlite'), 4096 * 300, new Uint8Array(4096).fill(0x55))
    const place = newFolder()
    expect(codeOf(await backUp(folder, join(place, 'x')))).toBe('damaged')
    expect(readdirSync(place)).toEqual([])
  })
})

test.each(['fact', 'catalogue_row', 'print'])(
  'no backup is made of a ledger with a %s that SQLite finds nothing wrong with',
  async (table) => {
    const { folder, store } = await filled()
    await store.close()
    const raw = new SqliteDatabase(join(folder, 'ledger.sqlite'))
    raw.exec('drop trigger if exists fact_not_changed')
    const { changes } = raw
      .prepare(`update ${table} set body = substr(body, 1, length(body) / 2)`)
      .run()
    raw.close()
    expect(changes).toBeGreaterThan(0)
    expect(codeOf(await backUp(folder, join(newFolder(), 'x')))).toBe('damaged')
  },
)

const backedUp = async (): Promise<{ folder: string; backup: string }> => {
  const { folder, store } = await filled()
  await store.close()
  const backup = join(newFolder(), 'backup.sqlite')
  valueOf(await backUp(folder, backup))
  return { folder, backup }
}

describe('a restore', () => {
  test('keeps what stood there under a name with the date, one after the other', async () => {
    const { folder, backup } = await backedUp()
    const store = valueOf(await openStore(folder))
    valueOf(await store.append([weighing(123)]))
    await store.close()
    const first = valueOf(await restore(backup, folder, { now }))
    expect(first.before).toBe(join(folder, 'ledger-before-2026-03-01T18-30-00.sqlite'))
    const second = valueOf(await restore(first.before!, folder, { now }))
    expect(second.facts).toBe(first.facts + 1)
    expect(readdirSync(folder).toSorted((one, other) => (one < other ? -1 : 1))).toEqual([
      'ledger-before-2026-03-01T18-30-00-2.sqlite',
      'ledger-before-2026-03-01T18-30-00.sqlite',
      'ledger.sqlite',
    ])
  })

  test('is refused while the ledger is open, and changes nothing', async () => {
    const { folder, backup } = await backedUp()
    const store = valueOf(await openStore(folder))
    valueOf(await store.append([weighing(5)]))
    expect(codeOf(await restore(backup, folder))).toBe('in_use')
    valueOf(await store.append([weighing(6)]))
    expect(await store.facts()).toHaveLength(33)
    await store.close()
    const again = valueOf(await openStore(folder))
    expect(await again.facts()).toHaveLength(33)
    await again.close()
    expect(readdirSync(folder)).toEqual(['ledger.sqlite'])
  })

  test.each(['header', 'page'])('takes the place of a ledger with a damaged %s', async (what) => {
    const { folder, backup } = await backedUp()
    const file = join(folder, 'ledger.sqlite')
    spoil(file, what === 'header' ? 0 : 4096, new Uint8Array(4096).fill(0x55))
    // A log left behind by whoever wrote last must not get into the restored one.
    writeFileSync(`${file}-wal`, 'left behind')
    const spoilt = readFileSync(file)
    const { before } = valueOf(await restore(backup, folder, { now }))
    if (what === 'header') expect(readFileSync(before!).equals(spoilt)).toBe(true)
    const store = valueOf(await openStore(folder))
    expect(await store.facts()).toHaveLength(31)
    await store.close()
  })

  test.each(['restored', 'new'])('plays no log left behind into a %s ledger', async (what) => {
    const { folder, backup } = await backedUp()
    const file = join(folder, 'ledger.sqlite')
    const store = valueOf(await openStore(folder))
    valueOf(await store.append([weighing(77)]))
    // What a crash leaves, and then somebody moves the ledger alone away.
    const log = readFileSync(`${file}-wal`)
    await store.close()
    rmSync(file)
    writeFileSync(`${file}-wal`, log)
    writeFileSync(`${file}-journal`, 'left behind')
    if (what === 'restored') {
      expect(valueOf(await restore(backup, folder, { now })).before).toBeUndefined()
    }
    const opened = valueOf(await openStore(folder))
    expect(await opened.facts()).toHaveLength(what === 'restored' ? 31 : 0)
    await opened.close()
    const kept = readdirSync(folder).filter((name) => name.includes('-before-'))
    expect(kept.map((name) => name.replace(/^.*sqlite/, '')).toSorted()).toEqual([
      '-journal',
      '-wal',
    ])
    expect(readFileSync(join(folder, kept.find((name) => name.endsWith('-wal'))!))).toEqual(log)
    if (what === 'restored') expect(kept[0]).toContain('ledger-before-2026-03-01T18-30-00.sqlite')
    expect(readdirSync(folder)).toHaveLength(3)
  })

  test('refuses what is no good backup, and leaves the ledger as it was', async () => {
    const { folder, backup } = await backedUp()
    const file = join(folder, 'ledger.sqlite')
    const before = readFileSync(file)
    const place = newFolder()
    const text = join(place, 'text')
    writeFileSync(text, 'no backup'.repeat(100))
    const other = join(place, 'other')
    new SqliteDatabase(other).exec('create table t (x)').close()
    const newer = join(place, 'newer')
    const astray = join(place, 'astray')
    const torn = join(place, 'torn')
    for (const copy of [newer, astray, torn]) writeFileSync(copy, readFileSync(backup))
    new SqliteDatabase(newer).exec("insert into migration values ('9999')").close()
    const raw = new SqliteDatabase(astray)
    raw.pragma('foreign_keys = off')
    raw.exec(
      "insert into fact values (99,'Z','moved','','','NONE1',null,null,null,null,null,null,null,'{}')",
    )
    raw.close()
    spoil(torn, 4096 * 12, new Uint8Array(4096).fill(0x55))
    expect(codeOf(await restore(join(place, 'absent'), folder))).toBe('no_ledger')
    expect(codeOf(await restore(text, folder))).toBe('not_a_ledger')
    const exported = join(place, 'shelf.ndjson')
    writeFileSync(exported, `${ledgerHeader(0)}\n`)
    const instead = await restore(exported, folder)
    expect(instead.ok ? '' : instead.refusal).toMatchObject({
      code: 'not_a_ledger',
      message: `${exported} is an export of a ledger and no backup: take it over with import.`,
    })
    expect(codeOf(await restore(place, folder))).toBe('not_a_ledger')
    expect(codeOf(await restore(other, folder))).toBe('not_a_ledger')
    expect(codeOf(await restore(newer, folder))).toBe('newer_ledger')
    expect(codeOf(await restore(astray, folder))).toBe('damaged')
    expect(codeOf(await restore(torn, folder))).toBe('damaged')
    expect(readdirSync(folder)).toEqual(['ledger.sqlite'])
    expect(readFileSync(file).equals(before)).toBe(true)
  })

  test('is stopped as asked, and changes nothing', async () => {
    const { folder, store } = await filled(10)
    valueOf(await store.append([printRow('e5'.repeat(32), undefined, 4000)]))
    await store.close()
    const backup = join(newFolder(), 'b')
    valueOf(await backUp(folder, backup))
    const before = readFileSync(join(folder, 'ledger.sqlite'))
    const stop = new AbortController()
    const outcome = await restore(backup, folder, {
      signal: stop.signal,
      progress: () => stop.abort(),
    })
    expect(codeOf(outcome)).toBe('cancelled')
    expect(readdirSync(folder)).toEqual(['ledger.sqlite'])
    expect(readFileSync(join(folder, 'ledger.sqlite')).equals(before)).toBe(true)
  })
})
