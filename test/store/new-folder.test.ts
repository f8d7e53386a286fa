import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeEach, expect, test, vi } from 'vitest'
import { openStore } from '../../src/store/index.ts'
import { syncFolder } from '../../src/store/sync-folder.ts'
import { valueOf } from './store-suite.ts'

vi.mock('../../src/store/sync-folder.ts', { spy: true })

const home = mkdtempSync(join(tmpdir(), 'reelreckon-new-folder-'))
afterAll(() => rmSync(home, { recursive: true }))
beforeEach(() => {
  vi.mocked(syncFolder).mockClear()
})

const synced = (): readonly string[] => vi.mocked(syncFolder).mock.calls.map(([folder]) => folder)

test.each([
  ['one', ['']],
  [join('a', 'b', 'c'), [join('a', 'b'), 'a', '']],
])('the name of every new folder is on the disk: %s', async (folder, above) => {
  const store = valueOf(await openStore(join(home, folder)))
  await store.close()
  // The last is that of the ledger's own name.
  expect(synced()).toEqual([...above.map((each) => join(home, each)), join(home, folder)])
})

test('where the folder is there nothing above it is touched', async () => {
  const store = valueOf(await openStore(home))
  await store.close()
  expect(synced()).toEqual([home])
})
