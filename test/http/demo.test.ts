import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import {
  type ChangeJson,
  changeJson,
  problemJson,
  reelListJson,
  sessionJson,
} from '../../src/contract/index.ts'
import { runCli } from '../cli/run-cli.ts'
import { startServe } from '../cli/start-serve.ts'
import { type Served, served } from './served.ts'

// The demo shelf in the place of one's own ledger, and that back.

const isDemo = async (answer: Response): Promise<boolean> =>
  sessionJson.parse(await answer.json()).demo

const reelOfOurs = { make: { name: 'Bight PLA', maker: 'Bight', material: 'PLA' } }

test('the built server: what is written to the demo shelf never reaches the own ledger', async () => {
  const data = mkdtempSync(join(tmpdir(), 'reelreckon-demo-test-'))
  const { port, end } = await startServe([], data)
  const ask = (method: string, path: string, body?: object): Promise<Response> =>
    fetch(`http://127.0.0.1:${port}/api${path}`, {
      method,
      ...(body && {
        body: JSON.stringify(body),
        headers: { 'content-type': 'application/json' },
      }),
    })
  const reels = async (): Promise<number> =>
    reelListJson.parse(await (await ask('GET', '/reels')).json()).reels.length
  const own = (): string => runCli(['reel', 'list', '--json', '--data', data]).out

  expect((await ask('POST', '/reels', reelOfOurs)).status).toBe(201)
  const before = own()
  expect(before).toContain('Bight')

  expect(await isDemo(await ask('POST', '/demo'))).toBe(true)
  const inDemo = await reels()
  expect(inDemo).toBeGreaterThan(5)
  // A second press changes nothing.
  expect(await isDemo(await ask('POST', '/demo'))).toBe(true)
  expect((await ask('POST', '/reels', reelOfOurs)).status).toBe(201)
  expect(await reels()).toBe(inDemo + 1)
  expect(own()).toBe(before)
  const backup = await (await ask('GET', '/backup')).text()
  expect(backup.startsWith('SQLite format 3')).toBe(true)
  const restored = await fetch(`http://127.0.0.1:${port}/api/restore`, {
    method: 'POST',
    headers: { 'content-type': 'application/vnd.sqlite3' },
    body: 'anything',
  })
  expect([restored.status, problemJson.parse(await restored.json()).code]).toEqual([
    409,
    'demo_in_place',
  ])

  expect(await isDemo(await ask('DELETE', '/demo'))).toBe(false)
  expect(await reels()).toBe(1)
  expect(own()).toBe(before)
  // A new one each time: what was added is gone.
  await ask('POST', '/demo')
  expect(await reels()).toBe(inDemo)
  expect(await end()).toBe(0)
})

test('begun with --demo, the own ledger is begun when the demo shelf is removed', async () => {
  const data = join(mkdtempSync(join(tmpdir(), 'reelreckon-demo-test-')), 'ledger')
  const { port, end } = await startServe(['--demo'], data)
  const at = `http://127.0.0.1:${port}/api`
  expect(runCli(['export', '--data', data]).err).toContain('There is no ledger')
  const answer = await fetch(`${at}/demo`, { method: 'DELETE' })
  expect(sessionJson.parse(await answer.json()).demo).toBe(false)
  expect(reelListJson.parse(await (await fetch(`${at}/reels`)).json()).reels).toEqual([])
  const added = runCli(['reel', 'add', '--make', 'Bight PLA', '--maker', 'Bight', '--data', data])
  expect(added.exit).toBe(0)
  expect(reelListJson.parse(await (await fetch(`${at}/reels`)).json()).reels.length).toBe(1)
  expect(await end()).toBe(0)
})

test('only those who are logged in exchange the ledger', async () => {
  const { ask } = await served({ isNeeded: true })
  expect((await ask('POST', '/api/demo')).status).toBe(401)
  expect((await ask('DELETE', '/api/demo')).status).toBe(401)
})

const sessionNow = async (ask: Served['ask']) =>
  sessionJson.parse(await (await ask('GET', '/api/session')).json())

test('open pages hear of the exchange, and what was meant for the other ledger is refused', async () => {
  const { app, ask } = await served({ isEmpty: true })
  const changes = await ask('GET', '/api/changes')
  const reader = changes.body!.pipeThrough(new TextDecoderStream()).getReader()
  const next = async (): Promise<ChangeJson> => {
    const { value = '' } = await reader.read()
    return changeJson.parse(JSON.parse(/^data: (.*)$/m.exec(value)?.[1] ?? 'null'))
  }
  const before = await next()
  await ask('POST', '/api/demo')
  const now = await next()
  expect(now.ledger).toBeGreaterThan(before.ledger)
  expect(now.ledger_id).not.toBe(before.ledger_id)
  const stale = { 'reelreckon-ledger': before.ledger_id }
  const late = await ask('POST', '/api/reels', reelOfOurs, stale)
  expect([late.status, problemJson.parse(await late.json()).code]).toEqual([
    409,
    'ledger_exchanged',
  ])
  const question = { length_mm: 1000 }
  expect((await ask('POST', '/api/checks/shelf', question, stale)).status).toBe(200)
  const again = await ask('DELETE', '/api/demo', undefined, stale)
  expect([again.status, (await sessionNow(ask)).demo]).toEqual([409, true])
  // An older state of the same ledger may have taken its place.
  const older = { 'reelreckon-ledger': `${now.ledger_id}/${before.ledger}` }
  expect((await ask('POST', '/api/reels', reelOfOurs, older)).status).toBe(409)
  const named = { 'reelreckon-ledger': `${now.ledger_id}/${now.ledger}` }
  expect((await ask('POST', '/api/reels', reelOfOurs, named)).status).toBe(201)
  await app.end()
})
