// oxlint-disable no-await-in-loop -- one kill after another
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import SqliteDatabase from 'better-sqlite3'
import { rolldown } from 'rolldown'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { openStore } from '../../src/store/index.ts'
import { catalogue, opening, reel, scale } from './records.ts'
import { valueOf } from './store-suite.ts'

const home = mkdtempSync(join(tmpdir(), 'reelreckon-crash-'))
afterAll(() => rmSync(home, { recursive: true }))
const program = fileURLToPath(new URL('../../dist/append-forever.js', import.meta.url))

// Joined into one file: to load the layers one by one takes longer than to be killed.
beforeAll(async () => {
  const bundle = await rolldown({
    input: fileURLToPath(new URL('./append-forever.ts', import.meta.url)),
    external: ['better-sqlite3'],
    platform: 'node',
  })
  await bundle.write({ file: program })
  await bundle.close()
})

const random = new SeededRandom(7)

const begin = async (folder: string): Promise<void> => {
  const store = valueOf(await openStore(folder))
  valueOf(await store.append([...catalogue, opening()]))
  await store.close()
}

/** Starts a writer; gives the ids it acknowledged, after it ended or was killed. */
const acknowledged = async (
  folder: string,
  count: number,
  killAfter?: { readonly ids: number; readonly ms: number },
): Promise<{ readonly ids: string[]; readonly ended: string }> => {
  const child = spawn(process.execPath, [program, folder, reel, scale, String(count)], {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, NODE_COMPILE_CACHE: join(home, 'compiled') },
  })
  let output = ''
  let complaint = ''
  let aimed = false
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    complaint += text
  })
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    output += text
    if (aimed || killAfter === undefined || output.split('\n').length <= killAfter.ids) return
    aimed = true
    setTimeout(() => child.kill('SIGKILL'), killAfter.ms)
  })
  const [code, signal] = (await once(child, 'close')) as [number | null, string | null]
  // A line cut in the middle by the kill names no fact.
  const ids = output.split('\n').filter((line) => line.length === 9)
  return { ids, ended: signal ?? `${code} ${complaint}` }
}

const kept = (folder: string): { readonly ids: Set<string>; readonly integrity: unknown } => {
  const raw = new SqliteDatabase(join(folder, 'ledger.sqlite'))
  try {
    const ids = raw.prepare('select id from fact').pluck().all() as string[]
    return { ids: new Set(ids), integrity: raw.pragma('integrity_check', { simple: true }) }
  } finally {
    raw.close()
  }
}

test('after 200 kills every acknowledged fact is there', { timeout: 600_000 }, async () => {
  const folder = join(home, 'killed')
  await begin(folder)
  const all: string[] = []
  let kills = 0
  const killer = async (): Promise<void> => {
    while (kills < 200) {
      kills++
      const aim = { ids: Math.floor(random.between(0, 6)), ms: random.between(0, 8) }
      const { ids, ended } = await acknowledged(folder, 1e9, aim)
      expect(ended).toBe('SIGKILL')
      all.push(...ids)
      if (kills % 20 === 0) {
        const { ids: held, integrity } = kept(folder)
        expect(integrity).toBe('ok')
        expect(ids.filter((id) => !held.has(id))).toEqual([])
      }
    }
  }
  // Two at a time: each is killed while the other writes.
  await Promise.all([killer(), killer()])
  const { ids, integrity } = kept(folder)
  expect(integrity).toBe('ok')
  expect(all.filter((id) => !ids.has(id))).toEqual([])
  expect(all.length).toBeGreaterThan(200)
  const store = valueOf(await openStore(folder))
  expect(await store.facts()).toHaveLength(ids.size)
  await store.close()
})

test('two programs that write 300 facts each lose none', async () => {
  const folder = join(home, 'two')
  await begin(folder)
  const both = await Promise.all([acknowledged(folder, 300), acknowledged(folder, 300)])
  expect(both.map(({ ended }) => ended)).toEqual(['0 ', '0 '])
  const { ids } = kept(folder)
  expect(both.flatMap((one) => one.ids).filter((id) => !ids.has(id))).toEqual([])
  expect(both.map((one) => one.ids.length)).toEqual([300, 300])
  expect(ids.size).toBe(601)
})
