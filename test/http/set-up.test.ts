import { expect, test } from 'vitest'
import type { z } from 'zod'
import {
  importJson,
  learntJson,
  makeFactsJson,
  problemJson,
  type RowsJson,
  recordedJson,
  rowsJson,
  tableHeadJson,
} from '../../src/contract/index.ts'
import { type Served, served } from './served.ts'

const read = async <T>(answer: Response, schema: z.ZodType<T>, status = 200): Promise<T> => {
  const text = await answer.text()
  if (answer.status !== status) throw new Error(`${answer.status}: ${text}`)
  return schema.parse(JSON.parse(text))
}

test('what was learnt of makes, printers and scales is told with how much it rests on', async () => {
  const { ask, store } = await served()
  const { makes, printers, scales } = await read(await ask('GET', '/api/learnt'), learntJson)
  for (const { pace } of printers)
    expect(pace).toMatchObject({ timed_prints: 0, moves: { value: 1 } })
  const facts = await store.facts()
  const opened = facts.filter(({ kind }) => kind === 'opened').length
  expect(makes.reduce((sum, { reels }) => sum + reels, 0)).toBe(opened)
  for (const { tare_g } of makes) expect(tare_g.u).toBeGreaterThan(0)
  expect(printers.reduce((sum, { prints }) => sum + prints, 0)).toBeGreaterThan(0)
  expect(scales.reduce((sum, { weighings }) => sum + weighings, 0)).toBeGreaterThan(0)
})

test('a make names a material as a person does, and keeps its id', async () => {
  const { ask } = await served({ isEmpty: true })
  const add = (kind: string, row: object): Promise<Response> =>
    ask('POST', `/api/rows/${kind}`, row)
  const own = await read(await add('material', { name: 'Oakum' }), recordedJson, 201)
  const make = { maker: 'Kittiwake', name: 'PLA' }
  const told = await read(await add('make', { ...make, material: 'Nylon 6' }), recordedJson, 201)
  expect(told.rows[0]).not.toMatchObject({ material: 'Nylon 6' })
  const second = { ...make, name: 'O', material: 'oakum' }
  const kept = await read(await add('make', second), recordedJson, 201)
  expect(kept.rows[0]).toMatchObject({ material: own.rows[0]!.id })
  const unknown = await add('make', { ...make, name: 'X', material: 'moonstone' })
  expect((await read(unknown, problemJson, 422)).code).toBe('material_unknown')
})

test('what was told of a make alone is listed, and put right', async () => {
  const { ask } = await served({ isEmpty: true })
  const make = { maker: 'Kittiwake', name: 'PLA', material: 'pla' }
  const { rows } = await read(await ask('POST', '/api/rows/make', make), recordedJson, 201)
  const { id } = rows[0]!
  const sheet = { make: id, source: 'sheet of May', tare_g: { value: 250, u: 2 } }
  const told = await read(await ask('POST', '/api/data-sheets', sheet), recordedJson, 201)
  const list = async (named: string) =>
    read(await ask('GET', `/api/makes/${encodeURIComponent(named)}/facts`), makeFactsJson)
  const { facts, ...of } = await list('kittiwake pla')
  expect(of).toEqual({ make: id, name: 'Kittiwake PLA' })
  expect(facts).toMatchObject([{ id: told.facts[0]!.id, kind: 'data-sheet', voided: null }])
  const wrong = { fact: facts[0]!.id, reason: 'of another make' }
  await read(await ask('POST', '/api/put-rights', wrong), recordedJson, 201)
  expect((await list(id)).facts).toMatchObject([{ voided: { reason: 'of another make' } }])
  const unknown = await ask('GET', '/api/makes/moonstone/facts')
  expect((await read(unknown, problemJson, 404)).code).toBe('make_unknown')
})

test('what is null is not known any more; a name can not be', async () => {
  const { ask } = await served({ isEmpty: true })
  const printer = { name: 'left', tail_mm: { value: 400, u: 50 }, retired: true }
  await read(await ask('POST', '/api/rows/printer', printer), recordedJson, 201)
  const change = (told: object): Promise<Response> => ask('PATCH', '/api/rows/printer/left', told)
  const { rows } = await read(await change({ tail_mm: null, retired: null }), recordedJson)
  expect(Object.keys(rows[0]!)).toEqual(['kind', 'id', 'changed_at', 'name'])
  expect((await read(await change({ name: null }), problemJson, 422)).code).toBeTypeOf('string')
  const listed = await read(await ask('GET', '/api/rows/printer'), rowsJson)
  expect(listed.rows).toMatchObject([{ name: 'left' }])
})

test('how a printer moves is told whole, and what no printer does is refused', async () => {
  const { ask } = await served({ isEmpty: true })
  const motion = {
    max_feed_mm_per_s: [180, 180, 12, 80],
    corner: 'square-corner',
    minimum_cruise: 0,
  }
  const added = await ask('POST', '/api/rows/printer', { name: 'left', motion })
  expect((await read(added, recordedJson, 201)).rows[0]).toMatchObject({ motion })
  const change = (told: object): Promise<Response> =>
    ask('PATCH', '/api/rows/printer/left', { motion: told })
  for (const wrong of [
    { print_accel_mm_per_s2: 0 },
    { minimum_cruise: 1 },
    { jerk: [1, 1, 1, 1] },
  ]) {
    // oxlint-disable-next-line no-await-in-loop -- each by itself
    await read(await change(wrong), problemJson, 422)
  }
  const { rows } = await read(await change({ junction_deviation_mm: 0.02 }), recordedJson)
  expect(rows[0]).toMatchObject({ motion: { junction_deviation_mm: 0.02 } })
})

test('parts of the ledger are tables, and no cell is a formula', async () => {
  const { ask } = await served({ isEmpty: true })
  for (const name of ['=1+1', '+2', '-3', '@four', '<b>five</b>']) {
    // oxlint-disable-next-line no-await-in-loop -- one after the other, so that their order is told
    await read(await ask('POST', '/api/rows/person', { name }), recordedJson, 201)
  }
  const answer = await ask('GET', '/api/tables/people')
  expect(answer.headers.get('content-type')).toContain('text/csv')
  expect(answer.headers.get('content-disposition')).toContain('people.csv')
  const text = await answer.text()
  for (const name of ["'=1+1", "'+2", "'-3", "'@four", '<b>five</b>']) expect(text).toContain(name)
  expect(text).not.toMatch(/(^|,)[=+\-@]/m)
  const unknown = await ask('GET', '/api/tables/rockets')
  expect((await read(unknown, problemJson, 404)).code).toBe('table_unknown')
})

const csv = `Product;Brand;Stuff;Label;On scale;Hue
Coastal;Kittiwake;PLA;1000 g;812 g;tar black
Coastal;Kittiwake;PLA;1000 g;heavy;foam
Coastal;Kittiwake;moonstone;1000 g;600 g;sand
;;;;;
`
const columns = { make: 0, maker: 1, material: 2, label_net: 3, gross: 4, colour: 5 }

const withScale = async (): Promise<Served> => {
  const server = await served({ isEmpty: true })
  const scale = { name: 'bench', step_g: 1, repeatability_g: 1, gain: 0.001 }
  await read(await server.ask('POST', '/api/rows/scale', scale), recordedJson, 201)
  return server
}

test('a table of reels tells its columns, is tried, and is taken', async () => {
  const { ask, store } = await withScale()
  const head = await read(await ask('POST', '/api/import/table-head', { csv }), tableHeadJson)
  expect(head.rows).toBe(4)
  expect(head.columns.map(({ heading, key }) => [heading, key])).toEqual([
    ['Product', 'make'],
    ['Brand', 'maker'],
    ['Stuff', null],
    ['Label', 'label_net'],
    ['On scale', null],
    ['Hue', null],
  ])
  expect(head.columns[5]!.cells).toEqual(['tar black', 'foam', 'sand'])
  const body = { csv, columns }
  const post = (more: object = {}): Promise<Response> =>
    ask('POST', '/api/import/table', { ...body, ...more })
  const tried = await read(await post({ dry_run: true }), importJson)
  expect(tried.reels).toMatchObject([{ row: 2 }])
  expect(tried.skipped).toMatchObject([
    { row: 3, column: 'On scale' },
    { row: 4, column: 'Stuff', code: 'material_unknown' },
  ])
  expect(await store.facts()).toEqual([])
  const refused = await read(await post(), problemJson, 422)
  expect(refused).toMatchObject({ code: 'rows_refused', line: 3 })
  expect(await store.facts()).toEqual([])
  const person = await read(
    await ask('POST', '/api/rows/person', { name: 'Wren' }),
    recordedJson,
    201,
  )
  const by = person.rows[0]!.id
  const taken = await read(await post({ skip_bad: true, by }), importJson)
  expect(taken.reels).toHaveLength(1)
  expect(await store.facts()).toMatchObject([
    { kind: 'opened', label_net_g: 1000, by },
    { kind: 'weighed', weighing: { reading_g: 812 } },
  ])
  const again = await read(await post({ skip_bad: true }), importJson)
  expect(again.reels).toEqual([])
  expect(again.skipped[0]).toMatchObject({ row: 2, code: 'there' })
  expect(again.skipped[0]!.message).not.toContain('--')
  const alike = await read(await post({ skip_bad: true, alike: true }), importJson)
  expect(alike.reels).toHaveLength(1)
})

test('a table that can not be taken says why', async () => {
  const { ask } = await withScale()
  const code = async (more: object): Promise<string> => {
    const answer = await ask('POST', '/api/import/table', { csv, columns, ...more })
    return (await read(answer, problemJson, 422)).code
  }
  expect(await code({ columns: { rocket: 1 } })).toBe('key_unknown')
  expect(await code({ columns: { make: 6 } })).toBe('column_missing')
  expect(await code({ columns: {} })).toBe('column_needed')
  expect(await code({ scale: 'no such' })).toBe('scale_unknown')
  expect(await code({ csv: 'a,"b\nc' })).toBe('no_table')
  expect(await code({ columns: { make: -1 } })).toBe('request_invalid')
})

test('who has the shelf already is told that it holds, until something is written', async () => {
  const { ask } = await served()
  const paths = ['/api/reels', '/api/rows/make', '/api/priors', '/api/learnt']
  for (const path of paths) {
    /* oxlint-disable no-await-in-loop -- each write changes what the next is asked of */
    const first = await ask('GET', path)
    const etag = first.headers.get('etag')!
    expect(first.headers.get('cache-control')).toBe('private, no-cache')
    const again = await ask('GET', path, undefined, { 'if-none-match': `"other", ${etag}` })
    expect([again.status, await again.text()]).toEqual([304, ''])
    expect(again.headers.get('etag')).toBe(etag)
    const person = { name: `Mags of ${path}` }
    await read(await ask('POST', '/api/rows/person', person), recordedJson, 201)
    const after = await ask('GET', path, undefined, { 'if-none-match': etag })
    expect(after.status).toBe(200)
    expect(after.headers.get('etag')).not.toBe(etag)
    /* oxlint-enable no-await-in-loop */
  }
  const missing = await ask('GET', '/api/reels/22222')
  expect(missing.headers.get('etag')).toBeNull()
  expect(missing.headers.get('cache-control')).toBe('no-store')
})

test('another run of the server does not know the answers of this one', async () => {
  const first = await (await served()).ask('GET', '/api/reels')
  const etag = first.headers.get('etag')!
  const { ask } = await served()
  expect((await ask('GET', '/api/reels', undefined, { 'if-none-match': etag })).status).toBe(200)
})

const called = (rows: RowsJson['rows'], name: string) =>
  rows.find((row) => 'name' in row && row.name === name)

test('a scale is told by its class, a printer by its report, and a key of another kind is refused', async () => {
  const { ask } = await served()
  const add = (kind: string, row: object): Promise<Response> =>
    ask('POST', `/api/rows/${kind}`, row)
  const rowsOf = async (kind: string) =>
    (await read(await ask('GET', `/api/rows/${kind}`), rowsJson)).rows
  await read(await add('scale', { name: 'shop', class: 'III', step_g: 1 }), recordedJson, 201)
  await read(await add('scale', { name: 'plain' }), recordedJson, 201)
  const scales = await rowsOf('scale')
  // Class III at 2 kg in steps of 1 g: within 2 e in service, evenly; OIML R 76-1, table 6, from memory.
  expect(called(scales, 'shop')).toMatchObject({
    step_g: 1,
    repeatability_g: expect.closeTo(2 / Math.sqrt(3), 9),
    gain: 0,
  })
  expect(called(scales, 'plain')).toMatchObject({ step_g: 1, gain: 0.001 })
  const finer = await ask('PATCH', '/api/rows/scale/plain', { step_g: 0.1 })
  await read(finer, recordedJson)
  expect(called(await rowsOf('scale'), 'plain')).toMatchObject({
    step_g: 0.1,
    repeatability_g: 0.05,
  })
  // One that somebody measured stays, and nothing that every scale has can be taken away.
  const measured = { step_g: 0.5, repeatability_g: 0.8 }
  await read(await ask('PATCH', '/api/rows/scale/plain', measured), recordedJson)
  await read(await ask('PATCH', '/api/rows/scale/plain', { step_g: 0.2 }), recordedJson)
  expect(called(await rowsOf('scale'), 'plain')).toMatchObject({
    step_g: 0.2,
    repeatability_g: 0.8,
  })
  for (const nothing of ['step_g', 'repeatability_g', 'gain', 'class']) {
    // oxlint-disable-next-line no-await-in-loop -- each by itself
    const answer = await ask('PATCH', '/api/rows/scale/plain', { [nothing]: null })
    // oxlint-disable-next-line no-await-in-loop -- as above
    expect((await read(answer, problemJson, 422)).code).toBe('request_invalid')
  }
  const report = 'echo: M203 X300.00 Y300.00 Z5.00 E25.00\necho: M201 X3000 Y3000 Z100 E10000'
  await read(await add('printer', { name: 'odd', motion_report: report }), recordedJson, 201)
  expect(called(await rowsOf('printer'), 'odd')).toMatchObject({
    motion: { max_feed_mm_per_s: [300, 300, 5, 25] },
  })
  const refused = await Promise.all([
    add('scale', { name: 'a', class: 'III' }),
    add('scale', { name: 'a', class: 'III', step_g: 1, gain: 0.01 }),
    add('printer', { name: 'a', motion_report: 'nothing of that kind' }),
    add('printer', { name: 'a', motion_report: report, motion: { corner: 'jerk' } }),
    add('printer', { name: 'a', step_g: 1 }),
    add('make', { name: 'a' }),
    add('person', {}),
  ])
  const codes = await Promise.all(
    refused.map(async (answer) => (await read(answer, problemJson, 422)).code),
  )
  expect(codes).toEqual([
    'scale_malformed',
    'scale_told_twice',
    'motion_not_found',
    'motion_twice',
    'request_invalid',
    'request_invalid',
    'request_invalid',
  ])
})
