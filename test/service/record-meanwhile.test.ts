// oxlint-disable no-await-in-loop -- one race after another
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, test } from 'vitest'
import {
  addRow,
  changeRow,
  type HandedIn,
  importRecords,
  listPriors,
  putRight,
  readTable,
  recordDraw,
  recordOfReel,
  setPrior,
  shelfView,
  weigh,
} from '../../src/service/index.ts'
import { openStore, type Store } from '../../src/store/index.ts'
import { addKittiwake, bench, codeOf, interrupted, valueOf } from '../shelf-bench.ts'

const home = mkdtempSync(join(tmpdir(), 'reelreckon-meanwhile-'))
afterAll(() => rmSync(home, { recursive: true }))

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

test('what others changed of a row stays, and so does what is told of it', async () => {
  const handed = await bench()
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  const [row] = await handed.store.catalogue()
  const second = interrupted(handed, async () =>
    valueOf(await changeRow(handed, 'printer', 'left', { name: 'harbour' })),
  )
  valueOf(await changeRow(second, 'printer', row!.id, { firmware: 'step-count' }))
  expect(await handed.store.catalogue()).toMatchObject([
    { name: 'harbour', firmware: 'step-count' },
  ])
  const third = interrupted(handed, async () =>
    valueOf(await changeRow(handed, 'printer', 'harbour', { name: 'pier' })),
  )
  const outcome = await changeRow(third, 'printer', 'harbour', { firmware: 'host' })
  expect(codeOf(outcome)).toBe('printer_unknown')
})

test('so does what others say of priors', async () => {
  const handed = await bench()
  const second = interrupted(handed, async () =>
    valueOf(await setPrior(handed, 'tail', { value: 900, u: 50 })),
  )
  valueOf(await setPrior(second, 'roomAir', { value: 1.2, u: 0.3 }))
  const own = valueOf(await listPriors(handed)).filter((prior) => prior.own !== undefined)
  expect(own.map(({ key }) => key).toSorted()).toEqual(['roomAir', 'tail'])
})

test.each([
  ['printer', { name: 'left' }],
  ['person', { name: 'Maud' }],
  ['scale', { name: 'bench scale', step_g: 1, repeatability_g: 1, gain: 0.002 }],
  ['material', { name: 'quay mix' }],
  ['make', { maker: 'Tern', name: 'Quay PLA' }],
] as const)('of two who set up a %s of one name the second is told', async (kind, told) => {
  const handed = await bench()
  const second = interrupted(handed, async () => valueOf(await addRow(handed, kind, told)))
  expect(codeOf(await addRow(second, kind, told))).toBe('name_taken')
  expect(await handed.store.catalogue()).toHaveLength(1)
})

test('of two whose reels bring a new make and a first scale each is set up once', async () => {
  const handed = await bench()
  const grossWhenNew = { reading_g: 1240 }
  const second = interrupted(handed, () => addKittiwake(handed, { grossWhenNew }))
  await addKittiwake(second, { grossWhenNew })
  const rows = await handed.store.catalogue()
  expect(rows.map(({ kind }) => kind).toSorted()).toEqual(['make', 'scale'])
  expect(await handed.store.facts()).toHaveLength(2)
})

test('a table of reels that was held against another ledger is not taken', async () => {
  const handed = await bench()
  const read = await readTable(handed, {
    header: ['make', 'maker', 'material', 'label_net'],
    rows: [['Quay PLA', 'Tern', 'PLA', '1000']],
    mapping: { make: 0, maker: 1, material: 2, label_net: 3 },
    unused: true,
  })
  const { records, revision } = valueOf(read)
  valueOf(await addRow(handed, 'make', { maker: 'Tern', name: 'Quay PLA' }))
  const guard = { ifRevision: revision }
  expect(codeOf(await importRecords(handed.store, records, undefined, guard))).toBe(
    'changed_meanwhile',
  )
})

/** A reel that holds about a kilogram, and somebody who uses nearly all of it up meanwhile. */
const usedUp = async (): Promise<{ handed: HandedIn; second: HandedIn; reel: string }> => {
  const handed = await bench()
  const { reel } = await weighed(handed)
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  const second = interrupted(handed, async () =>
    valueOf(await recordDraw(handed, { length_mm: 300_000, reels: [{ reel }] })),
  )
  return { handed, second, reel }
}

describe('surprise is tested again where others wrote between the look and the append', () => {
  test('of a weighing', async () => {
    const { second, reel, handed } = await usedUp()
    const { surprise, recorded } = valueOf(
      await weigh(second, { reel, weighing: { reading_g: 1261 } }),
    )
    expect([surprise.surprising, recorded]).toEqual([true, undefined])
    expect((await handed.store.facts()).at(-1)?.kind).toBe('drew')
  })

  test('of a draw', async () => {
    const { second, reel } = await usedUp()
    const outcome = await recordDraw(second, { length_mm: 200_000, reels: [{ reel }] })
    expect(codeOf(outcome)).toBe('drew_more_than_held')
  })

  test('of a piece cut off', async () => {
    const { second, reel } = await usedUp()
    const event = { kind: 'trimmed', mass_g: { value: 600, u: 1 } } as const
    expect(codeOf(await recordOfReel(second, reel, event))).toBe('drew_more_than_held')
  })

  test.each([false, true])('of what holds instead of a wrong fact: %s', async (isDisturbed) => {
    const handed = await bench()
    const { reel, fact } = await weighed(handed)
    const meanwhile = async (): Promise<unknown> =>
      isDisturbed && valueOf(await weigh(handed, { reel, weighing: { reading_g: 1262 } }))
    const mass_g = { value: 1230, u: 0 }
    const input = { fact, reason: 'misread', mass_g }
    const outcome = valueOf(await putRight(interrupted(handed, meanwhile), input))
    expect(outcome.weighed?.surprise.surprising).toBe(isDisturbed)
    expect(outcome.recorded === undefined).toBe(isDisturbed)
  })
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

/** What two programs print that are let go at the same moment, in order. */
const race = async (folder: string, jobs: readonly (readonly string[])[]): Promise<string[]> => {
  const program = fileURLToPath(new URL('./racing.ts', import.meta.url))
  const runs = jobs.map((job) => {
    const child = spawn(process.execPath, [program, folder, ...job], {
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
  return runs.map((run) => run.said().replace('ready\n', '')).toSorted()
}

test('of two processes that put the same fact right one does', { timeout: 120_000 }, async () => {
  for (let count = 0; count < 4; count++) {
    const folder = join(home, `put-right-${count}`)
    const store = valueOf(await openStore(folder))
    const { fact } = await weighed({ ...(await bench()), store })
    await store.close()
    const jobs = [1240, 1250].map((grams) => ['put-right', fact, String(grams)])
    expect(await race(folder, jobs)).toEqual(['accepted', 'fact_void'])
  }
})

test('of two processes that set up a printer of one name one does', {
  timeout: 120_000,
}, async () => {
  for (let count = 0; count < 4; count++) {
    const folder = join(home, `add-printer-${count}`)
    await valueOf(await openStore(folder)).close()
    const jobs = ['left', 'Left '].map((name) => ['add-printer', name])
    expect(await race(folder, jobs)).toEqual(['accepted', 'name_taken'])
  }
})
