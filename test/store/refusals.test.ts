// oxlint-disable no-await-in-loop -- one step after another is what is tested
import { execFileSync, spawnSync } from 'node:child_process'
import {
  chmodSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import SqliteDatabase from 'better-sqlite3'
import { describe, expect, it, test } from 'vitest'
import { openStore, StoreFault } from '../../src/store/index.ts'
import { atLeast } from '../../src/store/load-sqlite.ts'
import { filledStore, folders, spoil } from './ledger-folders.ts'
import { known, opening, printRow, weighing } from './records.ts'
import { codeOf, gathered, valueOf } from './store-suite.ts'

const newFolder = folders('refusals')
const fileOf = (folder: string): string => join(folder, 'ledger.sqlite')

const mode = (path: string): number => statSync(path).mode & 0o777

/** A ledger with something in it, closed. */
const filled = async (facts = 3): Promise<string> => {
  const folder = newFolder()
  const store = await filledStore(folder, facts)
  await store.close()
  return folder
}

/** Opens what is to be refused, and sees to it that nothing in the folder changed. */
const refusedAs = async (folder: string, code: string, words: RegExp): Promise<void> => {
  const before = contents(folder)
  const outcome = await openStore(folder)
  if (outcome.ok) await outcome.value.close()
  expect(codeOf(outcome)).toBe(code)
  expect(outcome).toMatchObject({ refusal: { message: expect.stringMatching(words) } })
  expect(contents(folder)).toEqual(before)
}

const contents = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { withFileTypes: true }).map((entry) => [
      entry.name,
      entry.isFile() ? readFileSync(join(folder, entry.name)).toString('base64') : '',
    ]),
  )

describe('what is no ledger is refused and left as it is', () => {
  test('another program’s SQLite file', async () => {
    const folder = newFolder()
    const other = new SqliteDatabase(fileOf(folder))
    other.exec('create table stamps (country text)')
    other.close()
    await refusedAs(folder, 'not_a_ledger', /another program wrote it/)
  })
  test('a text file', async () => {
    const folder = newFolder()
    writeFileSync(fileOf(folder), 'spool of thread, 3 left\n'.repeat(20))
    await refusedAs(folder, 'not_a_ledger', /does not begin as a ledger does/)
  })
  test('an empty file', async () => {
    const folder = newFolder()
    writeFileSync(fileOf(folder), '')
    await refusedAs(folder, 'not_a_ledger', /is empty/)
  })
  test('a folder of that name', async () => {
    const folder = newFolder()
    mkdirSync(fileOf(folder))
    await refusedAs(folder, 'not_a_ledger', /is a folder/)
  })
  test('a file in the place of the folder, or above it', async () => {
    const file = join(newFolder(), 'notes.txt')
    writeFileSync(file, 'hello')
    expect(codeOf(await openStore(file))).toBe('not_a_folder')
    expect(codeOf(await openStore(join(file, 'deeper')))).toBe('not_a_folder')
    expect(readFileSync(file, 'utf8')).toBe('hello')
  })
  test('nothing, where nothing is to be begun', async () => {
    const folder = join(newFolder(), 'absent')
    expect(codeOf(await openStore(folder, { create: false }))).toBe('no_ledger')
    expect(() => statSync(folder)).toThrow()
  })
})

describe('a damaged ledger', () => {
  test('with other first bytes', async () => {
    const folder = await filled()
    spoil(fileOf(folder), 0, new Uint8Array(16))
    await refusedAs(folder, 'damaged', /restore a backup/)
  })
  test('with a page size that can not be', async () => {
    const folder = await filled()
    spoil(fileOf(folder), 16, Uint8Array.of(1, 1))
    await refusedAs(folder, 'damaged', /header/)
  })
  test('that was cut short', async () => {
    const folder = await filled()
    truncateSync(fileOf(folder), 4096 * 3)
    await refusedAs(folder, 'damaged', /has 12288 bytes/)
  })
  test('with a page in the middle overwritten, when small, is found on opening', async () => {
    const folder = await filled(400)
    spoil(fileOf(folder), 4096 * 20, new Uint8Array(4096).fill(0x55))
    const outcome = await openStore(folder)
    expect(codeOf(outcome)).toBe('damaged')
  })
  test('with a page in the middle overwritten, when large, is found on reading', async () => {
    const folder = await filled(20_000)
    const { size } = statSync(fileOf(folder))
    expect(size).toBeGreaterThan(4 * 1024 * 1024)
    for (let page = 200; page < 220; page++) {
      spoil(fileOf(folder), 4096 * page, new Uint8Array(4096).fill(0x55))
    }
    const store = valueOf(await openStore(folder))
    const refusal = { code: 'damaged', message: expect.stringContaining(fileOf(folder)) }
    await expect(store.facts()).rejects.toThrow(StoreFault)
    await expect(store.facts()).rejects.toMatchObject({ refusal })
    await expect(gathered(store.records())).rejects.toMatchObject({ refusal })
    await store.close()
  })
  test('with a record that is no longer JSON is found on reading', async () => {
    const folder = await filled()
    const raw = new SqliteDatabase(fileOf(folder))
    raw.exec('drop trigger fact_not_changed')
    raw.exec(`update fact set body = substr(body, 1, 20) where sequence = 2`)
    raw.close()
    const store = valueOf(await openStore(folder))
    await expect(store.facts()).rejects.toMatchObject({ refusal: { code: 'damaged' } })
    await store.close()
  })
})

test('a ledger of a newer version is refused and left as it is', async () => {
  const folder = await filled()
  const raw = new SqliteDatabase(fileOf(folder))
  raw.prepare('insert into migration (name) values (?)').run('9999-from-the-future')
  raw.close()
  const outcome = await openStore(folder)
  expect(outcome).toMatchObject({
    refusal: { code: 'newer_ledger', received: '9999-from-the-future' },
  })
})

test('a folder on a network is refused', async () => {
  const outcome = await openStore(newFolder(), { pretend: { networkFileSystem: 'NFS' } })
  expect(outcome).toMatchObject({
    refusal: { code: 'network_folder', message: expect.stringContaining('NFS') },
  })
})

describe('a Node that is too old', () => {
  it.each(['20.20.2', '18.0.0'])('%s is told so', async (node) => {
    const folder = newFolder()
    const outcome = await openStore(folder, { pretend: { node } })
    expect(outcome).toMatchObject({ refusal: { code: 'node_too_old', received: node } })
    expect(readdirSync(folder)).toEqual([])
  })
  // The machine's own Node, where npm scripts put the pinned one before it.
  const hosts = ['/usr/local/bin/node', '/usr/bin/node'].filter((node) => {
    const { stdout } = spawnSync(node, ['-p', 'process.versions.node'], { encoding: 'utf8' })
    return Number.parseInt(stdout ?? '', 10) < 22
  })
  test.skipIf(hosts.length === 0)('a real one is told so, and does not crash', () => {
    const door = new URL('../../dist/store/index.js', import.meta.url).href
    const code = `import { openStore } from '${door}'; console.log((await openStore('.')).refusal.code)`
    const { stdout } = spawnSync(hosts[0]!, ['--input-type=module', '-e', code], {
      encoding: 'utf8',
    })
    expect(stdout).toBe('node_too_old\n')
  })
})

test.each([
  ['3.51.3', true],
  ['3.51.2', false],
  ['3.52', true],
  ['3.9.99', false],
  ['4.0.0', true],
])('SQLite %s may be used: %s', (version, may) => {
  expect(atLeast(version, [3, 51, 3])).toBe(may)
})

test('folder and file are this person’s alone', async () => {
  const folder = join(newFolder(), 'deep', 'down')
  const store = valueOf(await openStore(folder))
  valueOf(await store.append(known))
  expect(mode(folder)).toBe(0o700)
  expect(mode(fileOf(folder))).toBe(0o600)
  expect(mode(`${fileOf(folder)}-wal`)).toBe(0o600)
  await store.close()
  expect(readdirSync(folder)).toEqual(['ledger.sqlite'])
})

describe('a full disk', () => {
  test('as SQLite sees it (max_page_count): nothing is lost, and it works again with room', async () => {
    const folder = await filled()
    const pages = statSync(fileOf(folder)).size / 4096
    const store = valueOf(await openStore(folder, { pretend: { maxPages: pages + 4 } }))
    const before = await store.facts()
    const big = printRow('d4'.repeat(32), undefined, 20_000)
    const outcome = await store.append([weighing(1), big])
    expect(outcome).toMatchObject({ refusal: { code: 'disk_full' } })
    expect(await store.facts()).toEqual(before)
    valueOf(await store.append([weighing(2)]))
    await store.close()
    const roomy = valueOf(await openStore(folder))
    expect(await roomy.facts()).toHaveLength(before.length + 1)
    valueOf(await roomy.append([big]))
    await roomy.close()
  })

  const mounted = newFolder()
  const { status } = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'none', mounted])
  const hasMount = status === 0
  if (!hasMount) console.warn('A disk of 1 MiB can not be mounted here: its test is skipped.')
  test.skipIf(!hasMount)('of 1 MiB: every acknowledged fact is there, and no other', async () => {
    try {
      const store = valueOf(await openStore(mounted))
      valueOf(await store.append([...known, opening()]))
      const acknowledged: string[] = []
      let refused = 0
      for (let turn = 0; turn < 400 && refused < 3; turn++) {
        const facts = Array.from({ length: 20 }, (_, place) => ({
          ...weighing(place + 1),
          note: 'x'.repeat(400),
        }))
        const outcome = await store.append(facts)
        if (outcome.ok) acknowledged.push(...facts.map(({ id }) => id))
        else {
          expect(outcome.refusal.code).toBe('disk_full')
          refused++
        }
      }
      expect(refused).toBe(3)
      expect(acknowledged.length).toBeGreaterThan(100)
      const kept = async (): Promise<string[]> =>
        (await valueOf(await openStore(mounted)).facts()).slice(1).map(({ id }) => id)
      expect((await store.facts()).slice(1).map(({ id }) => id)).toEqual(acknowledged)
      execFileSync('mount', ['-o', 'remount,size=8m', mounted])
      valueOf(await store.append([weighing(77)]))
      await store.close()
      expect((await kept()).slice(0, -1)).toEqual(acknowledged)
    } finally {
      spawnSync('umount', ['-l', mounted])
    }
  })
})

/** What a ledger can do that is not to be written. */
const reads = async (folder: string): Promise<void> => {
  const store = valueOf(await openStore(folder))
  expect(await store.facts()).toHaveLength(4)
  expect((await gathered(store.records())).length).toBe(known.length + 4)
  expect(codeOf(await store.append([weighing(1)]))).toBe('read_only')
  await store.close()
}

describe('a ledger that is write-protected is read, not written', () => {
  // For root permissions are no hindrance; a mount is.
  const isRoot = process.getuid?.() === 0
  test.skipIf(isRoot).each(['file', 'folder'])('by the permissions of the %s', async (what) => {
    const folder = await filled()
    const path = what === 'file' ? fileOf(folder) : folder
    chmodSync(path, what === 'file' ? 0o400 : 0o500)
    try {
      await reads(folder)
    } finally {
      chmodSync(path, 0o700)
    }
  })
  test.skipIf(!isRoot)('by its mount', async () => {
    const folder = await filled()
    execFileSync('mount', ['--bind', folder, folder])
    try {
      execFileSync('mount', ['-o', 'remount,ro,bind', folder])
      await reads(folder)
      expect(readdirSync(folder)).toEqual(['ledger.sqlite'])
      expect(codeOf(await openStore(join(folder, 'new')))).toBe('read_only')
    } finally {
      spawnSync('umount', ['-l', folder])
    }
  })
})

test('who waits for too long for others who write is told so', async () => {
  const folder = await filled()
  const other = new SqliteDatabase(fileOf(folder))
  other.exec('begin immediate')
  const store = valueOf(await openStore(folder, { patience: 50 }))
  expect(codeOf(await store.append([weighing(5)]))).toBe('busy')
  expect(await store.facts()).toHaveLength(4)
  other.exec('rollback')
  other.close()
  valueOf(await store.append([weighing(5)]))
  await store.close()
})

test('two who begin the same ledger at once have one', async () => {
  const folder = join(newFolder(), 'new')
  const stores = await Promise.all(Array.from({ length: 6 }, () => openStore(folder)))
  valueOf(await valueOf(stores[0]!).append([...known, opening()]))
  for (const [place, store] of stores.entries()) {
    valueOf(await valueOf(store).append([weighing(place + 1)]))
  }
  for (const store of stores) expect(await valueOf(store).facts()).toHaveLength(7)
  for (const store of stores) await valueOf(store).close()
  expect(readdirSync(folder)).toEqual(['ledger.sqlite'])
})
