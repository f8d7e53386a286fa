// oxlint-disable no-await-in-loop -- one race after another
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, expect, test } from 'vitest'
import {
  addRow,
  changeRow,
  type HandedIn,
  putRight,
  recordOfReel,
  shelfView,
  weigh,
} from '../../src/service/index.ts'
import { openStore, type Store } from '../../src/store/index.ts'
import { addKittiwake, bench, codeOf, valueOf } from '../shelf-bench.ts'

const home = mkdtempSync(join(tmpdir(), 'reelreckon-meanwhile-'))
afterAll(() => rmSync(home, { recursive: true }))

/** A bench at which somebody else does something just before the first append. */
const interrupted = (handed: HandedIn, meanwhile: () => Promise<unknown>): HandedIn => {
  let isDone = false
  const append: Store['append'] = async (records, guard) => {
    if (!isDone) {
      isDone = true
      await meanwhile()
    }
    return handed.store.append(records, guard)
  }
  return { ...handed, store: { ...handed.store, append } }
}

const weighed = async (handed: HandedIn): Promise<{ reel: string; fact: string }> => {
  const { reels } = await addKittiwake(handed)
  const reel = reels[0]!
  const { fact } = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1262 } }))
  return { reel, fact: fact.id }
}

test('of two who put the same fact right the second is told that it does not hold', async () => {
  const handed = await bench()
  const { fact } = await weighed(handed)
  const input = { fact, reason: 'misread', mass_g: { value: 1250, u: 0 }, accept: true }
  const second = interrupted(handed, async () => valueOf(await putRight(handed, input)))
  expect(codeOf(await putRight(second, input))).toBe('fact_void')
  const view = valueOf(await shelfView(handed.store))
  expect(view.standing.facts.filter(({ kind }) => kind === 'weighed')).toHaveLength(1)
})

test('what does not bear on it is no hindrance, and is in the figures before', async () => {
  const handed = await bench()
  const { reel } = await weighed(handed)
  const second = interrupted(handed, async () =>
    valueOf(await recordOfReel(handed, reel, { kind: 'moved', place: 'shelf 2' })),
  )
  valueOf(await recordOfReel(second, reel, { kind: 'moved', place: 'shelf 3' }))
  expect((await handed.store.facts()).filter(({ kind }) => kind === 'moved')).toHaveLength(2)
})

test('a row that others changed stays theirs', async () => {
  const handed = await bench()
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  const second = interrupted(handed, async () =>
    valueOf(await changeRow(handed, 'printer', 'left', { name: 'harbour' })),
  )
  const outcome = await changeRow(second, 'printer', 'left', { firmware: 'step-count' })
  expect(codeOf(outcome)).toBe('changed_meanwhile')
  expect(await handed.store.catalogue()).toMatchObject([{ name: 'harbour' }])
})

test('who always comes second gives up', async () => {
  const handed = await bench()
  const { reel } = await weighed(handed)
  const append: Store['append'] = async (records, guard) => {
    valueOf(await recordOfReel(handed, reel, { kind: 'moved', place: 'shelf 2' }))
    return handed.store.append(records, guard)
  }
  const late = { ...handed, store: { ...handed.store, append } }
  const outcome = await recordOfReel(late, reel, { kind: 'moved', place: 'shelf 3' })
  expect(codeOf(outcome)).toBe('changed_meanwhile')
})

test('of two processes that put the same fact right one does', { timeout: 120_000 }, async () => {
  const program = fileURLToPath(new URL('./put-right-racing.ts', import.meta.url))
  for (let race = 0; race < 4; race++) {
    const folder = join(home, String(race))
    const store = valueOf(await openStore(folder))
    const { fact } = await weighed({ ...(await bench()), store })
    await store.close()
    const runs = [1240, 1250].map((grams) => {
      const child = spawn(process.execPath, [program, folder, fact, String(grams)], {
        stdio: ['pipe', 'pipe', 'inherit'],
        env: { ...process.env, NODE_COMPILE_CACHE: join(home, 'compiled') },
      })
      let text = ''
      child.stdout.on('data', (more) => (text += String(more)))
      return {
        child,
        ready: once(child.stdout, 'data'),
        closed: once(child, 'close'),
        said: () => text,
      }
    })
    await Promise.all(runs.map(({ ready }) => ready))
    for (const { child } of runs) child.stdin.write('go\n')
    await Promise.all(runs.map(({ closed }) => closed))
    const said = runs.map((run) => run.said().replace('ready\n', ''))
    expect(said.toSorted()).toEqual(['accepted', 'fact_void'])
  }
})
