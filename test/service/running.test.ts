import { expect, test } from 'vitest'
import { type PrintRowJson, type RunningRowJson, runningRequest } from '../../src/contract/index.ts'
import {
  addRow,
  addWaiting,
  changeRow,
  changeRunning,
  type HandedIn,
  matchShelf,
  putRight,
  type ReelNow,
  recordDraw,
  reelNow,
  runningOf,
  shelfView,
  slateOf,
  startRunning,
  tellRunning,
  weigh,
} from '../../src/service/index.ts'
import { printDigest } from '../../src/service/print-digest.ts'
import { printsOfSlate } from '../../src/service/prints-of-slate.ts'
import { addKittiwake, bench, codeOf, interrupted, smallPrint, valueOf } from '../shelf-bench.ts'

const id = '94Y7AQJ6D'

const ready = async (print = smallPrint()) => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 3 })
  const { rows } = valueOf(await addRow(handed, 'printer', { name: 'left' }))
  valueOf(await handed.store.append([print]))
  const told = { print: print.id, reels: [{ reel: reels[0]! }] }
  return { handed, print, reels, reel: reels[0]!, printer: rows[0]!.id, told }
}

const runs = async ({ store }: HandedIn): Promise<readonly RunningRowJson[]> =>
  runningOf(await store.catalogue(), await store.facts())

/** What is believed of a reel. */
const believed = async (handed: HandedIn, reel: string): Promise<ReelNow> =>
  reelNow(valueOf(await shelfView(handed.store)), reel)

test('a print that was started runs, to the minute, and takes nothing off its reel', async () => {
  const { handed, told, reel, printer, print } = await ready()
  const before = await believed(handed, reel)
  expect(before.net.value).toBeGreaterThan(900)
  const started_at = '2026-03-01T12:34:56.789Z'
  const takes = { early_s: 3000, likely_s: 3600, late_s: 4200 }
  const expected = [
    {
      tool: 0,
      verdict: 'close' as const,
      run_dry: { early: { layer: 2, height_mm: 0.4 }, likely: null, clock: takes },
      change_before: { layer: 1, height_mm: 0.2, clock: null },
    },
  ]
  const start = { ...told, id, started_at, takes, told: expected }
  const { rows } = valueOf(await startRunning(handed, start))
  expect(rows).toEqual([
    {
      kind: 'running',
      id,
      changed_at: expect.any(String),
      print: print.id,
      printer,
      started_at: '2026-03-01T12:34:00.000Z',
      recorded_at: expect.any(String),
      reels: [{ tool: 0, reel }],
      takes,
      told: expected,
    },
  ])
  expect(await tellRunning(handed.store)).toEqual({
    running: [
      {
        row: rows[0],
        file: 'small.gcode',
        layers: { spiral: false, height_mm: [0.2, 0.4, 0.6] },
      },
    ],
  })
  expect(await believed(handed, reel)).toEqual(before)
})

test('of those that were started in one minute the one told first comes first', async () => {
  const { handed, told, reels } = await ready()
  const started_at = '2026-03-01T12:34:00.000Z'
  const ids = ['FX4KMGJZY', '94Y7AQJ6D', 'TMCWQ5VN5']
  for (const [place, each] of ids.entries()) {
    valueOf(
      // oxlint-disable-next-line no-await-in-loop -- one after the other
      await startRunning(handed, {
        ...told,
        id: each,
        started_at,
        reels: [{ reel: reels[place]! }],
      }),
    )
  }
  expect((await runs(handed)).map((row) => row.id)).toEqual(ids)
})

test('told twice it is written down once', async () => {
  const { handed, told } = await ready()
  const first = valueOf(await startRunning(handed, { ...told, id }))
  const revision = await handed.store.revision()
  const again = valueOf(await startRunning(handed, { ...told, id }))
  expect(again.rows).toEqual(first.rows)
  expect(again.notes.join()).toContain('nothing was counted twice')
  expect(await handed.store.revision()).toBe(revision)
  const other: PrintRowJson = { ...smallPrint([0], 60), id: 'cd'.repeat(32) }
  valueOf(await handed.store.append([other]))
  expect(codeOf(await startRunning(handed, { ...told, print: other.id, id }))).toBe('id_taken')
})

test('the draw of its id ends it in the same append, finished or failed', async () => {
  const { handed, told, reel, printer } = await ready()
  valueOf(await addRow(handed, 'printer', { name: 'right' }))
  valueOf(await startRunning(handed, { ...told, id, printer }))
  // Two printers are in use: which of them it was is known from the start.
  const draw = { id, kept: told.print, reels: [{ reel }] }
  const done = valueOf(await recordDraw(handed, { ...draw, stoppedAt: { layer: 2 } }))
  expect(done.facts).toMatchObject([{ kind: 'drew', id, printer }])
  expect(done.rows).toMatchObject([{ kind: 'running', id, ended: 'failed' }])
  expect(await runs(handed)).toEqual([])
  // Its start, which comes late from who was out of touch, does not make it run again.
  const late = valueOf(await startRunning(handed, { ...told, id, printer }))
  expect(await runs(handed)).toEqual([])
  expect(late.notes).toHaveLength(1)
  // Nor does it where the draw is put right.
  valueOf(await putRight(handed, { fact: id, reason: 'another reel' }))
  expect(await runs(handed)).toEqual([])
})

test('a start that comes after its draw is not written down', async () => {
  const { handed, told, reel } = await ready()
  valueOf(await recordDraw(handed, { id, kept: told.print, reels: [{ reel }] }))
  const late = valueOf(await startRunning(handed, { ...told, id }))
  expect(late.rows).toEqual([])
  expect(late.notes.join()).toContain('recorded before')
  expect(await runs(handed)).toEqual([])
})

test('an id of a print that runs is none for another draw', async () => {
  const { handed, told, reel } = await ready()
  valueOf(await startRunning(handed, { ...told, id }))
  const fed = { id, length_mm: 1000, reels: [{ reel }] }
  expect(codeOf(await recordDraw(handed, fed))).toBe('id_taken')
  expect(await runs(handed)).toHaveLength(1)
})

test('a draw without its id ends it where no other can be meant', async () => {
  const { handed, told, reel, reels } = await ready()
  const draw = (more: object = {}) =>
    recordDraw(handed, { kept: told.print, reels: [{ reel }], ...more })
  valueOf(await startRunning(handed, { ...told, id }))
  // On another printer, from another reel, or before it was started.
  valueOf(await addRow(handed, 'printer', { name: 'right' }))
  valueOf(await draw({ printer: 'right' }))
  const other = valueOf(await draw({ printer: 'left', reels: [{ reel: reels[1]! }] }))
  expect(other.notes.join()).toContain('told to run there still (94Y-7AQ-J6D)')
  valueOf(await draw({ printer: 'left', at: '2026-03-01T12:00:30.000Z' }))
  expect(await runs(handed)).toHaveLength(1)
  const ended = valueOf(await draw({ printer: 'left' }))
  expect(ended.rows).toMatchObject([{ kind: 'running', id, ended: 'finished' }])
  expect(await runs(handed)).toEqual([])
})

test('of two that run alike none is ended by a draw that may be of either', async () => {
  const { handed, told, reel } = await ready()
  valueOf(await startRunning(handed, { ...told, id }))
  valueOf(await startRunning(handed, told))
  const { rows, notes } = valueOf(await recordDraw(handed, { kept: told.print, reels: [{ reel }] }))
  expect(rows).toEqual([])
  expect(notes.join()).toContain('if it was this one')
  expect(await runs(handed)).toHaveLength(2)
})

test('another reel takes over once, however often it is told, and ends with the draw', async () => {
  const { handed, told, reel, reels } = await ready()
  valueOf(await startRunning(handed, { ...told, id }))
  const took_over = { reel: reels[1]!, after_layer: 1, ran_dry: true }
  const changed = valueOf(await changeRunning(handed, '94y-7aq-j6d', { took_over }))
  const fed = [
    { tool: 0, reel, ran_dry: true },
    { tool: 0, reel: reels[1], after_layer: 1 },
  ]
  expect(changed.rows).toMatchObject([{ id, reels: fed }])
  const again = valueOf(await changeRunning(handed, id, { took_over }))
  expect(again.rows).toMatchObject([{ id, reels: fed }])
  expect(await runs(handed)).toMatchObject([{ reels: fed }])
  const other = { reel: reels[2]!, after_layer: 3 }
  expect(codeOf(await changeRunning(handed, id, { took_over: other }))).toBe('beyond_print')
  const itself = { reel: reels[1]!, after_layer: 2 }
  expect(codeOf(await changeRunning(handed, id, { took_over: itself }))).toBe('change_to_itself')
  expect(codeOf(await changeRunning(handed, id, {}))).toBe('nothing_changed')
  expect(codeOf(await changeRunning(handed, '222222222', { took_over }))).toBe(
    'running_print_unknown',
  )
})

test('one that never ran is off, and may be put back', async () => {
  const { handed, told, reels } = await ready()
  valueOf(await startRunning(handed, { ...told, id }))
  valueOf(await changeRunning(handed, id, { ended: 'never-ran' }))
  expect(await runs(handed)).toEqual([])
  valueOf(await changeRunning(handed, id, { ended: 'never-ran' }))
  const took_over = { reel: reels[1]!, after_layer: 1 }
  expect(codeOf(await changeRunning(handed, id, { took_over }))).toBe('running_has_ended')
  valueOf(await changeRunning(handed, id, { ended: null }))
  expect((await runs(handed))[0]).not.toHaveProperty('ended')
})

test('what can not be meant is refused', async () => {
  const { handed, told } = await ready(smallPrint([0, 1]))
  const start = async (more: object) => codeOf(await startRunning(handed, { ...told, ...more }))
  expect(await start({ print: 'ff'.repeat(32) })).toBe('print_unknown')
  expect(await start({ printer: 'right' })).toBe('printer_unknown')
  expect(await start({ reels: [{ tool: 0, reel: '22222' }] })).toBe('reel_unknown')
  expect(await start({ reels: [{ tool: 2, reel: told.reels[0]!.reel }] })).toBe('tool_not_used')
  expect(await start({})).toBe('tool_not_used')
  const reels = [{ tool: 1, reel: told.reels[0]!.reel }]
  expect(await start({ reels, waiting: 'nothing' })).toBe('waiting_unknown')
  expect(await start({ reels, firmware: 'step count' })).toBe('firmware_unknown')
  expect(await runs(handed)).toEqual([])
})

test('the waiting print that it is a copy of is done with it, and only where it finished', async () => {
  const { handed, told, reel, print } = await ready()
  valueOf(await addWaiting(handed, { print }, { name: 'first', importance: 3 }))
  valueOf(await addWaiting(handed, { print }, { name: 'second', copies: 2 }))
  const draw = { kept: told.print, reels: [{ reel }] }
  const names = async () => slateOf(await handed.store.catalogue()).map(({ name }) => name)
  const { rows } = valueOf(await startRunning(handed, { ...told, waiting: 'second' }))
  valueOf(await recordDraw(handed, { ...draw, id: rows[0]!.id, stoppedAt: { layer: 1 } }))
  const again = valueOf(await startRunning(handed, { ...told, waiting: 'second' }))
  expect(await names()).toEqual(['first', 'second'])
  const done = valueOf(await recordDraw(handed, { ...draw, id: again.rows[0]!.id }))
  expect(done.rows).toMatchObject([{ name: 'second', done: 1 }, { ended: 'finished' }])
})

test('a weighing in the minute of the start came before it', async () => {
  const { handed, told, reel } = await ready()
  valueOf(await addRow(handed, 'scale', { name: 'k', step_g: 1, repeatability_g: 1, gain: 0 }))
  const startedAt = '2026-03-01T12:40:00.000Z'
  const draw = { kept: told.print, reels: [{ reel }], startedAt }
  const at = (moment: string) =>
    weigh(handed, { reel, at: moment, accept: true, weighing: { reading_g: 1250, scale: 'k' } })
  valueOf(await at('2026-03-01T12:40:59.000Z'))
  valueOf(await recordDraw(handed, draw))
  valueOf(await at('2026-03-01T12:41:00.000Z'))
  expect(codeOf(await recordDraw(handed, draw))).toBe('weighed_meanwhile')
})

test('a draw of its id asks about a weighing since its start, unless told when it ended', async () => {
  const { handed, told, reel } = await ready()
  valueOf(await addRow(handed, 'scale', { name: 'k', step_g: 1, repeatability_g: 1, gain: 0 }))
  const started_at = '2026-03-01T12:40:00.000Z'
  valueOf(await startRunning(handed, { ...told, id, started_at }))
  const at = '2026-03-01T12:50:00.000Z'
  valueOf(
    await weigh(handed, { reel, at, accept: true, weighing: { reading_g: 1250, scale: 'k' } }),
  )
  const draw = { id, kept: told.print, reels: [{ reel }] }
  expect(codeOf(await recordDraw(handed, draw))).toBe('weighed_meanwhile')
  expect(await runs(handed)).toHaveLength(1)
  const { facts } = valueOf(await recordDraw(handed, { ...draw, startedAt: null }))
  expect(facts).toMatchObject([{ kind: 'drew', id }])
})

test('a copy that has only begun is not ended by the draw of one before it', async () => {
  const { handed, told, reel } = await ready()
  const takes = { early_s: 3000, likely_s: 3600, late_s: 4200 }
  const started_at = '2026-03-01T12:00:00.000Z'
  valueOf(await startRunning(handed, { ...told, id, started_at, takes }))
  const draw = { kept: told.print, reels: [{ reel }] }
  const early = valueOf(await recordDraw(handed, { ...draw, at: '2026-03-01T12:49:00.000Z' }))
  expect(early.notes.join()).toContain('told to run there still (94Y-7AQ-J6D)')
  expect(await runs(handed)).toHaveLength(1)
  valueOf(await recordDraw(handed, { ...draw, at: '2026-03-01T12:50:00.000Z' }))
  expect(await runs(handed)).toEqual([])
  // One that failed may have stopped at any time.
  valueOf(await startRunning(handed, { ...told, started_at, takes }))
  valueOf(
    await recordDraw(handed, { ...draw, at: '2026-03-01T12:01:00.000Z', stoppedAt: { layer: 1 } }),
  )
  expect(await runs(handed)).toEqual([])
})

test('a print that was recorded otherwise while it ran is not counted again in silence', async () => {
  const { handed, told, reel, reels } = await ready()
  const takes = { early_s: 3000, likely_s: 3600, late_s: 4200 }
  const started_at = '2026-03-01T12:00:00.000Z'
  valueOf(await startRunning(handed, { ...told, id, started_at, takes }))
  const draw = { kept: told.print, reels: [{ reel }] }
  // Of the one before, and from another reel: neither can be this one.
  valueOf(await recordDraw(handed, { ...draw, at: '2026-03-01T11:59:00.000Z' }))
  valueOf(await recordDraw(handed, { ...draw, reels: [{ reel: reels[1]! }] }))
  const at = '2026-03-01T12:30:00.000Z'
  const noted = valueOf(await recordDraw(handed, { ...draw, at })).notes.join()
  expect(noted).toContain('if it was this one, say so where it runs')
  const net = (await believed(handed, reel)).net.value
  const asked = await recordDraw(handed, { ...draw, id })
  expect(asked).toMatchObject({ refusal: { code: 'drawn_meanwhile' } })
  expect((await believed(handed, reel)).net.value).toBe(net)
  expect(await runs(handed)).toHaveLength(1)
  // That was this one: it is off. If it was another, what this one took is still to be told.
  expect(valueOf(await changeRunning(handed, id, { ended: 'finished' })).notes).toEqual([
    expect.stringContaining(`recorded from ${reel} already; if that was another copy`),
  ])
  expect((await believed(handed, reel)).net.value).toBe(net)
  expect(await runs(handed)).toEqual([])
  // Or it was another copy.
  valueOf(await changeRunning(handed, id, { ended: null }))
  valueOf(await recordDraw(handed, { ...draw, id, another: true }))
  expect((await believed(handed, reel)).net.value).toBeLessThan(net)
})

test('a copy that was started, too, and ended is another one', async () => {
  const { handed, print, reels } = await ready(smallPrint([0, 1]))
  const fed = reels.slice(0, 2).map((reel, tool) => ({ tool, reel }))
  const told = { print: print.id, reels: fed, started_at: '2026-03-01T12:00:00.000Z' }
  valueOf(await startRunning(handed, { ...told, id }))
  const other = valueOf(await startRunning(handed, told)).rows[0]!.id
  const draw = { kept: print.id, reels: fed }
  expect(valueOf(await recordDraw(handed, { ...draw, id: other })).facts).toHaveLength(2)
  expect(valueOf(await recordDraw(handed, { ...draw, id })).facts).toHaveLength(2)
})

test('of one that is told to have ended, it is said that its draw is still due', async () => {
  const { handed, told, reel } = await ready()
  valueOf(await startRunning(handed, { ...told, id }))
  const due = `What it took is not off ${reel}: record its draw with its id 94Y-7AQ-J6D`
  const end = async (ended: 'finished' | 'failed' | 'never-ran' | null) =>
    valueOf(await changeRunning(handed, id, { ended })).notes.join()
  expect(await end('finished')).toContain(due)
  expect(await end('finished')).toContain(due)
  expect(await end('failed')).toContain(due)
  expect(await end('never-ran')).toBe('')
  valueOf(await recordDraw(handed, { id, kept: told.print, reels: [{ reel }] }))
  expect(await end('failed')).toBe('')
})

test('two that start and end at once both count', async () => {
  const { handed, told, reel } = await ready()
  valueOf(await startRunning(handed, { ...told, id }))
  const slow = interrupted(handed, () =>
    recordDraw(handed, { id, kept: told.print, reels: [{ reel }] }),
  )
  valueOf(await startRunning(slow, told))
  expect(await runs(handed)).toHaveLength(1)
})

const plan = async (handed: HandedIn, busy?: Parameters<typeof matchShelf>[1]['busy']) => {
  let asked: Parameters<Parameters<typeof matchShelf>[2]>[0] | undefined
  const matched = await matchShelf(handed, busy === undefined ? {} : { busy }, async (slate) => {
    asked = slate
    throw new Error('asked')
  }).catch((error: unknown) => {
    if (asked === undefined) throw error
    return undefined
  })
  return { asked, matched }
}

test('a match takes what runs as busy, and what is told of a printer goes before it', async () => {
  const { handed, told, reel, reels, print, printer } = await ready()
  valueOf(await addWaiting(handed, { print }, { name: 'small', copies: 2 }))
  const takes = { early_s: 3000, likely_s: 3600, late_s: 7200 }
  // Its clock goes on by a minute each time it is read.
  const started_at = new Date(handed.now()).toISOString()
  valueOf(await startRunning(handed, { ...told, id, started_at, takes }))
  const { asked } = await plan(handed)
  const [left] = asked!.printers
  expect(left!.free_h).toBeGreaterThan(1.5)
  expect(left!.free_h).toBeLessThan(2)
  expect(left!.running).toMatchObject([{ tool: 0, reel }])
  expect(left!.loaded).toEqual({ 0: reel })
  // One of its two copies runs.
  expect(asked!.copies).toHaveLength(1)
  const explicit = await plan(handed, [
    { printer: 'left', print: 'small', reels: [{ reel: reels[1]! }] },
  ])
  expect(explicit.asked!.printers[0]!.running).toMatchObject([{ reel: reels[1] }])
  expect(explicit.asked!.printers[0]!.running).toHaveLength(1)
  // A printer that is not used any more does not keep the others from being planned.
  valueOf(await addRow(handed, 'printer', { name: 'right' }))
  valueOf(await changeRow(handed, 'printer', printer, { retired: true }))
  const { asked: without } = await plan(handed)
  expect(without!.printers).toHaveLength(1)
  expect(without!.printers[0]).not.toHaveProperty('running')
})

test('a match reads what runs as the firmware does that was told at its start', async () => {
  const row = smallPrint()
  const [group] = row.families
  const other = {
    ...group!,
    families: ['meta'],
    tools: [{ ...group!.tools[0]!, peak_mm: 9 }],
  }
  const { handed, told, print } = await ready({
    ...row,
    families: [{ ...group!, families: ['host'] }, other],
  })
  valueOf(await addWaiting(handed, { print }, { name: 'small', copies: 2 }))
  valueOf(await startRunning(handed, { ...told, id, firmware: 'Meta' }))
  expect(await runs(handed)).toMatchObject([{ firmware: 'meta' }])
  const { asked } = await plan(handed)
  const draws = asked!.printers[0]!.running!.map(({ draw }) => draw)
  expect(draws).toEqual([printDigest(print).drawOf(0, 'meta')])
})

test('an end that no moment can tell does not keep a match from being made', async () => {
  // As a file may say that it dwells.
  const { handed, told, print } = await ready({
    ...smallPrint(),
    time: { planned_s: 1e18, family: 'community', corner: 'junction', waits: [] },
  })
  const takes = { early_s: 3000, likely_s: 3600, late_s: 1e18 }
  expect(runningRequest.safeParse({ ...told, takes }).success).toBe(false)
  expect(runningRequest.safeParse({ ...told, takes: { ...takes, late_s: 1e8 } }).success).toBe(true)
  valueOf(await addWaiting(handed, { print }, { name: 'small', copies: 2 }))
  valueOf(await startRunning(handed, { ...told, id }))
  const { asked } = await plan(handed)
  expect(asked!.printers[0]!.free_h).toBeGreaterThan(20_000)
})

test('prints that were asked for before are not read anew', async () => {
  const { handed, print } = await ready()
  let read = 0
  const { store } = handed
  const counted = {
    prints: () => store.prints(),
    print: (asked: string) => {
      read++
      return store.print(asked)
    },
  }
  await printsOfSlate(counted, [{ print: print.id }])
  expect([...(await printsOfSlate(counted, []))]).toEqual([])
  await printsOfSlate(counted, [{ print: print.id }])
  expect(read).toBe(1)
})
