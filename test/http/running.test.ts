import { expect, test } from 'vitest'
import {
  matchJson,
  newTokenJson,
  problemJson,
  type RunningPrintJson,
  recordedJson,
  runningPrintsJson,
} from '../../src/contract/index.ts'
import { addKittiwake, noon, smallPrint, valueOf } from '../shelf-bench.ts'
import { passPhrase, type Served, served } from './served.ts'

const id = '94Y7AQJ6D'

const ready = async (more: Parameters<typeof served>[0] = {}) => {
  const server = await served({ isEmpty: true, ...more })
  const handed = {
    store: server.store,
    now: () => noon,
    randomByte: () => Math.floor(Math.random() * 256),
  }
  const { reels } = await addKittiwake(handed, { count: 2 })
  const printer = { kind: 'printer', id: 'VP7BP', name: 'left' } as const
  const print = smallPrint()
  valueOf(
    await server.store.append([print, { ...printer, changed_at: new Date(noon).toISOString() }]),
  )
  const start = { id, print: print.id, reels: [{ reel: reels[0]! }] }
  return { ...server, reels, print, start }
}

const running = async ({ ask }: Pick<Served, 'ask'>): Promise<readonly RunningPrintJson[]> =>
  runningPrintsJson.parse(await (await ask('GET', '/api/running')).json()).running

test('what one client starts, another sees, changes and ends', async () => {
  const server = await ready()
  const { ask, start, reels, store } = server
  expect(await running(server)).toEqual([])
  const revision = await store.revision()
  const started = await ask('POST', '/api/running', start)
  expect(started.status).toBe(201)
  // Live pages ask anew where the revision is another.
  expect(await store.revision()).toBeGreaterThan(revision)
  const answer = recordedJson.parse(await started.json())
  expect(answer).toMatchObject({ facts: [], reels: [], rows: [{ kind: 'running', id }] })
  expect(await running(server)).toMatchObject([
    { row: { id, started_at: '2026-03-01T12:00:00.000Z' }, file: 'small.gcode' },
  ])

  const took_over = { reel: reels[1]!, after_layer: 2 }
  expect((await ask('PATCH', `/api/running/${id}`, { took_over })).status).toBe(200)
  const fed = [
    { tool: 0, reel: reels[0] },
    { tool: 0, reel: reels[1], after_layer: 2 },
  ]
  expect((await running(server))[0]!.row.reels).toEqual(fed)

  const drawn = await ask('POST', '/api/draws', { id, print: start.print, reels: fed })
  expect(drawn.status).toBe(201)
  const { facts, rows } = recordedJson.parse(await drawn.json())
  expect(facts.map(({ kind }) => kind)).toEqual(['drew', 'drew'])
  expect(rows).toMatchObject([{ id, ended: 'finished' }])
  expect(await running(server)).toEqual([])
})

test('posted twice, start and end are counted once', async () => {
  const server = await ready()
  const { ask, start, store } = server
  const answers = await Promise.all([
    ask('POST', '/api/running', start),
    ask('POST', '/api/running', start),
  ])
  expect(answers.map(({ ok }) => ok)).toEqual([true, true])
  expect(await running(server)).toHaveLength(1)
  const draw = { id, print: start.print, reels: start.reels, stopped_at: { layer: 1 } }
  await ask('POST', '/api/draws', draw)
  await ask('POST', '/api/draws', draw)
  // Word of the start that was lost on its way comes last.
  const late = recordedJson.parse(await (await ask('POST', '/api/running', start)).json())
  expect(late.notes).toHaveLength(1)
  expect((await store.facts()).filter(({ kind }) => kind === 'drew')).toHaveLength(1)
  expect(await running(server)).toEqual([])
})

test('recorded without its id while it runs, it is counted again only as another copy', async () => {
  const server = await ready()
  const { ask, start, store } = server
  const takes = { early_s: 3000, likely_s: 3600, late_s: 4200 }
  await ask('POST', '/api/running', { ...start, takes })
  const draw = { print: start.print, reels: start.reels }
  expect((await ask('POST', '/api/draws', draw)).status).toBe(201)
  const asked = await ask('POST', '/api/draws', { ...draw, id })
  expect(problemJson.parse(await asked.json()).code).toBe('drawn_meanwhile')
  const drawn = async () => (await store.facts()).filter(({ kind }) => kind === 'drew').length
  expect(await drawn()).toBe(1)
  expect((await ask('POST', '/api/draws', { ...draw, id, another: true })).status).toBe(201)
  expect(await drawn()).toBe(2)
})

test('one that never ran is taken back without a fact', async () => {
  const server = await ready()
  const { ask, start, store } = server
  await ask('POST', '/api/running', start)
  await ask('PATCH', `/api/running/${id}`, { ended: 'never-ran' })
  expect(await running(server)).toEqual([])
  expect((await store.facts()).filter(({ kind }) => kind === 'drew')).toEqual([])
})

test('it goes with the ledger to another, and runs there', async () => {
  const here = await ready()
  await here.ask('POST', '/api/running', here.start)
  const lines = await (await here.ask('GET', '/api/export')).text()
  expect(lines).toContain(`{"kind":"running","id":"${id}"`)
  const there = await served({ isEmpty: true })
  const taken = await there.ask('POST', '/api/import', lines, {
    'content-type': 'application/x-ndjson',
  })
  expect(taken.status).toBe(200)
  expect(await running(there)).toEqual(await running(here))
  const table = await (await here.ask('GET', '/api/tables/running')).text()
  expect(table).toContain('small.gcode,left,')
})

test('a match takes its reel and its printer as busy', async () => {
  const { ask, start, print } = await ready()
  await ask('POST', '/api/slate', { print: print.id, copies: 2 })
  const takes = { early_s: 3000, likely_s: 3600, late_s: 7200 }
  await ask('POST', '/api/running', { ...start, takes })
  const plan = matchJson.parse(await (await ask('POST', '/api/matches', {})).json())
  expect(plan.copies).toHaveLength(1)
  expect(plan.copies[0]!.begins_h).toBeCloseTo(2, 5)
  expect(plan.notes.join()).toContain('small.gcode, started 2026-03-01 12:00')
})

test('a token that may record may write it, one that may look may only see it', async () => {
  const server = await ready({ isNeeded: true })
  const { ask, start } = server
  const logIn = await ask('POST', '/api/session', { pass_phrase: passPhrase })
  const cookie = logIn.headers.get('set-cookie')?.split(';')[0]
  const bearer = async (may: string) => {
    const made = await ask('POST', '/api/tokens', { name: may, may }, { cookie })
    return { authorization: `Bearer ${newTokenJson.parse(await made.json()).token}` }
  }
  const [look, record] = [await bearer('look'), await bearer('record')]
  expect((await ask('POST', '/api/running', start, look)).status).toBe(403)
  expect((await ask('POST', '/api/running', start, record)).status).toBe(201)
  expect((await ask('GET', '/api/running', undefined, look)).status).toBe(200)
  const end = { ended: 'never-ran' }
  expect((await ask('PATCH', `/api/running/${id}`, end, look)).status).toBe(403)
  expect((await ask('PATCH', `/api/running/${id}`, end, record)).status).toBe(200)
})

test('what is not understood is said', async () => {
  const { ask, start } = await ready()
  const code = async (body: object, path = '/api/running', method = 'POST') =>
    problemJson.parse(await (await ask(method, path, body)).json()).code
  expect(await code({ ...start, print: 'f'.repeat(64) })).toBe('print_unknown')
  expect(await code({ ...start, id: '94Y7AQJ6E' })).toBe('request_invalid')
  expect(await code({ ...start, reels: [] })).toBe('request_invalid')
  expect(await code({ ended: null }, `/api/running/${id}`, 'PATCH')).toBe('running_print_unknown')
})
