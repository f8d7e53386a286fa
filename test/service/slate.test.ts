import { expect, test } from 'vitest'
import type { WaitingRowJson } from '../../src/contract/index.ts'
import {
  addRow,
  addWaiting,
  changeWaiting,
  copiesWaiting,
  putRight,
  recordDraw,
  shelfView,
  slateOf,
  tellSlate,
} from '../../src/service/index.ts'
import { matchQuestion } from '../../src/service/match-question.ts'
import { printsOfSlate } from '../../src/service/prints-of-slate.ts'
import { addKittiwake, bench, codeOf, interrupted, smallPrint, valueOf } from '../shelf-bench.ts'

const ready = async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 2 })
  const { rows } = valueOf(await addRow(handed, 'printer', { name: 'left' }))
  return { handed, reel: reels[0]!, printer: rows[0]!.id }
}

const rowsOf = (rows: readonly object[]): readonly WaitingRowJson[] =>
  rows as readonly WaitingRowJson[]

const waiting = async (handed: Awaited<ReturnType<typeof bench>>) =>
  slateOf(await handed.store.catalogue())

test('a print waits with what it wants, names turned into ids', async () => {
  const { handed, reel, printer } = await ready()
  const print = smallPrint()
  const { rows } = valueOf(
    await addWaiting(
      handed,
      { print },
      {
        copies: 3,
        tools: [{ tool: 0, material: 'PLA', colours: ['red', 'blue'], reel: reel.toLowerCase() }],
        printers: ['LEFT'],
        due: '2026-03-04T17:00:00.000Z',
        importance: 2,
        changes: { most: 1, after_layers: [[1, 2]] },
        duration_h: 3.5,
      },
    ),
  )
  expect(rows[0]).toMatchObject({
    kind: 'waiting',
    name: 'small',
    print: print.id,
    copies: 3,
    tools: [{ tool: 0, material: 'pla', colours: ['red', 'blue'], reel }],
    printers: [printer],
  })
  expect(await waiting(handed)).toEqual(rows)
  expect(await handed.store.print(print.id)).toEqual(print)
  const slate = await tellSlate(handed.store, rowsOf(rows))
  expect(slate.waiting[0]).toMatchObject({
    waits: 3,
    file: 'small.gcode',
    layers: 3,
    tools: [{ tool: 0, draw_mm: 300 }],
  })
})

test('a copy that was cut short is told with what was fed, until one is finished', async () => {
  const { handed, reel } = await ready()
  const print = smallPrint()
  const reels = [{ reel }]
  const stoppedAt = { layer: 2 }
  // Before it came to the slate: that was another print.
  valueOf(await recordDraw(handed, { print, reels, stoppedAt }))
  valueOf(await addWaiting(handed, { print }, { name: 'knob', copies: 2 }))
  const told = async (): Promise<readonly string[]> =>
    (await tellSlate(handed.store, await waiting(handed))).waiting[0]!.cut_short
  expect(await told()).toEqual([])
  const cut = { print, reels, stoppedAt, note: 'the nozzle clogged' }
  const { facts } = valueOf(await recordDraw(handed, cut))
  const [sentence, ...more] = await told()
  expect(more).toEqual([])
  expect(sentence).toMatch(/^Cut short 2026-03-01 .*\. The copy waits still, whole\.$/)
  expect(sentence).toContain(
    `reel ${reel} began to feed 0.30 m on left, stopped in layer 2, 50 ± 10 % of it fed`,
  )
  const matched = matchQuestion(
    valueOf(await shelfView(handed.store)),
    await printsOfSlate(handed.store, await waiting(handed)),
    { busy: [] },
    handed.now(),
  )
  const { id } = (await waiting(handed))[0]!
  expect(valueOf(matched).notes).toContain(`knob (${id}): ${sentence}`)
  // What does not hold any more cut nothing short.
  const undone = valueOf(await putRight(handed, { fact: facts[0]!.id, reason: 'it went on' }))
  expect(await told()).toEqual([])
  valueOf(await putRight(handed, { fact: undone.recorded!.facts[0]!.id, reason: 'no' }))
  expect(await told()).toEqual([sentence])
  valueOf(await recordDraw(handed, { print, reels }))
  expect(await told()).toEqual([])
})

test('what can not be meant is refused', async () => {
  const { handed } = await ready()
  const print = smallPrint()
  const add = async (told: Parameters<typeof addWaiting>[2]) =>
    codeOf(await addWaiting(handed, { print }, told))
  expect(await add({ tools: [{ tool: 1 }] })).toBe('tool_not_used')
  expect(await add({ tools: [{ tool: 0 }, { tool: 0 }] })).toBe('tool_twice')
  expect(await add({ tools: [{ tool: 0, material: 'cheese' }] })).toBe('material_unknown')
  expect(await add({ tools: [{ tool: 0, reel: '22222' }] })).toBe('reel_unknown')
  expect(await add({ printers: ['right'] })).toBe('printer_unknown')
  expect(await add({ changes: { after_layers: [[1, 3]] } })).toBe('layer_out_of_range')
  expect(await add({ copies: 0 })).toBe('ledger_record')
  expect(codeOf(await addWaiting(handed, { kept: 'abab' }, {}))).toBe('print_unknown')
  expect(await waiting(handed)).toEqual([])
  expect(await add({})).toBe('')
  expect(await add({})).toBe('name_taken')
  expect(await add({ name: 'another' })).toBe('')
})

test('a row changes in what is told, and forgets what is told to be nothing', async () => {
  const { handed } = await ready()
  const told = { copies: 2, due: '2026-03-04T17:00:00.000Z', importance: 1 }
  const { rows } = valueOf(await addWaiting(handed, { print: smallPrint() }, told))
  const { id } = rows[0]!
  const changed = valueOf(await changeWaiting(handed, 'SMALL', { copies: 5, due: null })).rows[0]
  expect(changed).toMatchObject({ id, copies: 5, importance: 1 })
  expect(changed).not.toHaveProperty('due')
  expect(codeOf(await changeWaiting(handed, id, { copies: 5 }))).toBe('nothing_changed')
  expect(codeOf(await changeWaiting(handed, 'nothing like it', { copies: 5 }))).toBe(
    'waiting_unknown',
  )
  valueOf(await changeWaiting(handed, id, { off: true }))
  expect(await waiting(handed)).toEqual([])
  valueOf(await changeWaiting(handed, id, { off: null }))
  expect(await waiting(handed)).toHaveLength(1)
  valueOf(await changeWaiting(handed, id, { done: 5 }))
  expect(await waiting(handed)).toEqual([])
  valueOf(await changeWaiting(handed, id, { done: 0 }))
  expect((await waiting(handed))[0]).not.toHaveProperty('done')
})

test('the most urgent comes first', async () => {
  const { handed } = await ready()
  const print = smallPrint()
  const add = (name: string, more: object): Promise<unknown> =>
    addWaiting(handed, { print }, { name, ...more })
  await add('first come', {})
  await add('due late', { due: '2026-04-01T00:00:00.000Z' })
  await add('due soon', { due: '2026-03-02T00:00:00.000Z' })
  await add('no hurry', { importance: -1 })
  await add('important', { importance: 3 })
  expect((await waiting(handed)).map(({ name }) => name)).toEqual([
    'important',
    'due soon',
    'due late',
    'first come',
    'no hurry',
  ])
})

test('a finished print takes one copy off, of the most urgent that waits for it', async () => {
  const { handed, reel } = await ready()
  const print = smallPrint()
  valueOf(await addWaiting(handed, { print }, { name: 'later', copies: 1 }))
  valueOf(await addWaiting(handed, { print }, { name: 'now', copies: 2, importance: 1 }))
  const draw = async (more: object = {}) =>
    valueOf(await recordDraw(handed, { print, reels: [{ reel }], ...more }))
  expect((await draw({ stoppedAt: { layer: 2 } })).rows).toEqual([])
  expect((await draw({ waiting: null })).rows).toEqual([])
  const first = await draw()
  expect(first.rows[0]).toMatchObject({ name: 'now', done: 1 })
  expect(first.notes.join()).toContain('One copy of now is off the slate; 1 waits still.')
  expect((await draw({ waiting: 'later' })).rows[0]).toMatchObject({ name: 'later', done: 1 })
  expect((await draw()).notes.join()).toContain('now is off the slate: all copies are done.')
  expect(await waiting(handed)).toEqual([])
  expect((await draw()).rows).toEqual([])
})

test('two that change a row at once both count', async () => {
  const { handed, reel } = await ready()
  const print = smallPrint()
  valueOf(await addWaiting(handed, { print }, { copies: 3 }))
  const slow = interrupted(handed, () => recordDraw(handed, { print, reels: [{ reel }] }))
  valueOf(await recordDraw(slow, { print, reels: [{ reel }] }))
  const [row] = await waiting(handed)
  expect(copiesWaiting(row!)).toBe(1)
})

test('how long a copy takes is planned from its moves, at the pace of the slowest of its printers', async () => {
  const { handed, reel, printer } = await ready()
  const print = smallPrint()
  const { time: _time, ...untimed } = print
  const timed = { ...untimed, time: { planned_s: 7200, family: 'host', corner: 'jerk', waits: [] } }
  valueOf(await addWaiting(handed, { print: timed }, {}))
  const takes = async () => (await tellSlate(handed.store, await waiting(handed))).waiting[0]!.takes
  const before = (await takes())!
  expect(before.likely_s).toBeCloseTo(7260, -1)

  // Another printer that is half as quick as planned.
  const { rows } = valueOf(await addRow(handed, 'printer', { name: 'right' }))
  const draw = { kept: print.id, reels: [{ reel }], printer: 'right', waiting: null }
  for (let k = 0; k < 3; k++) {
    // oxlint-disable-next-line no-await-in-loop -- prints are made one after another
    valueOf(await recordDraw(handed, { ...draw, took_s: 14_400 }))
  }
  expect((await takes())!.likely_s).toBeGreaterThan(12_000)
  const [row] = await waiting(handed)
  valueOf(await changeWaiting(handed, row!.id, { printers: [printer] }))
  expect(await takes()).toEqual(before)
  valueOf(await changeWaiting(handed, row!.id, { printers: [rows[0]!.id] }))
  expect((await takes())!.likely_s).toBeGreaterThan(12_000)
})
