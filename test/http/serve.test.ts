import { mkdtempSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { request } from 'node:http'
import { networkInterfaces, tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { changeJson, keptJson, problemJson, reelListJson } from '../../src/contract/index.ts'
import { runCli } from '../cli/run-cli.ts'
import { type RunningServe, startServe } from '../cli/start-serve.ts'
import { passPhrase } from './served.ts'

// The built command, listening.

const newFolder = (): string => mkdtempSync(join(tmpdir(), 'reelreckon-serve-test-'))
const none = join(newFolder(), 'none')

const running: RunningServe[] = []
afterAll(async () => {
  await Promise.all(running.map(({ end }) => end('SIGKILL')))
})

const start = async (...words: readonly string[]): Promise<RunningServe> => {
  const one = await startServe(words, none)
  running.push(one)
  return one
}

interface Told {
  readonly status: number
  readonly headers: Readonly<Record<string, string | string[] | undefined>>
  readonly text: string
}

/** fetch would not send another Host. */
const call = (
  port: number,
  path: string,
  {
    host = '127.0.0.1',
    method = 'GET',
    headers = {},
    body,
  }: {
    readonly host?: string
    readonly method?: string
    readonly headers?: Readonly<Record<string, string>>
    readonly body?: string
  } = {},
): Promise<Told> =>
  new Promise((resolve, reject) => {
    const type = body === undefined ? {} : { 'content-type': 'application/json' }
    const asked = request({ host, port, path, method, headers: { ...type, ...headers } })
    asked.once('error', reject)
    asked.once('response', (answer) => {
      let text = ''
      answer.setEncoding('utf8')
      answer.on('data', (part) => (text += String(part)))
      answer.once('end', () =>
        resolve({ status: answer.statusCode ?? 0, headers: answer.headers, text }),
      )
    })
    asked.end(body)
  })

const codeOf = ({ text }: Told): string => problemJson.parse(JSON.parse(text)).code

test('the demo shelf, by its own names only, until it is ended', async () => {
  const { port, said, end } = await start('--demo')
  expect(said).toContain('with the demo shelf')
  expect(said).not.toContain('plain http')
  const told = await call(port, '/api/reels')
  expect(reelListJson.parse(JSON.parse(told.text)).reels.length).toBeGreaterThan(5)
  expect((await call(port, '/', { headers: { host: `localhost:${port}` } })).status).toBe(200)
  const rebound = await call(port, '/api/reels', { headers: { host: `evil.example:${port}` } })
  expect([rebound.status, codeOf(rebound)]).toEqual([421, 'host_unknown'])
  const body = JSON.stringify({ name: 'Eve' })
  const forged = await call(port, '/api/rows/person', {
    method: 'POST',
    headers: { origin: 'http://evil.example' },
    body,
  })
  expect([forged.status, codeOf(forged)]).toEqual([403, 'cross_site'])
  const own = { origin: `http://127.0.0.1:${port}`, 'sec-fetch-site': 'same-origin' }
  const written = await call(port, '/api/rows/person', { method: 'POST', headers: own, body })
  expect(written.status).toBe(201)
  expect(await end()).toBe(0)
})

test('pages that listen hear of what the command line writes, and do not keep it from ending', async () => {
  const data = newFolder()
  const { port, end } = await start('--data', data)
  const answer = await fetch(`http://127.0.0.1:${port}/api/changes`)
  const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader()
  const next = async () => {
    const { value = '' } = await reader.read()
    return changeJson.parse(JSON.parse(/^data: (.*)$/m.exec(value)?.[1] ?? 'null'))
  }
  const first = await next()
  const words = ['person', 'add', 'Tilde', '--data', data]
  expect(runCli(words).exit).toBe(0)
  expect((await next()).revision).toBeGreaterThan(first.revision)
  expect(await end('SIGINT')).toBe(0)
  expect((await reader.read()).done).toBe(true)
})

test('a backup is downloaded and put back, and another file is refused', async () => {
  const data = newFolder()
  const { port, end } = await start('--data', data)
  const at = (path: string): string => `http://127.0.0.1:${port}${path}`
  const add = (name: string): Promise<Response> =>
    fetch(at('/api/rows/person'), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ name }),
    })
  await add('Tilde')
  const backup = await (await fetch(at('/api/backup'))).arrayBuffer()
  await add('Mags')
  const restore = (body: BodyInit, query = ''): Promise<Response> =>
    fetch(at(`/api/restore${query}`), {
      method: 'POST',
      headers: { 'content-type': 'application/vnd.sqlite3' },
      body,
    })
  const refused = await restore('no ledger at all')
  expect(refused.status).toBe(422)
  const why = problemJson.parse(await refused.json())
  expect(why.code).toBe('not_a_ledger')
  // Where it lay meanwhile is nobody's business.
  expect(JSON.stringify(why)).not.toMatch(/upload|tmp/)
  const people = async (): Promise<string> => (await fetch(at('/api/rows/person'))).text()
  expect(await people()).toContain('Mags')
  const tried = keptJson.parse(await (await restore(backup, '?dry_run=true')).json())
  expect(tried).toEqual({ file: 'upload', facts: 0, rows: 1, prints: 0, kept: null })
  expect((await restore('no ledger at all', '?dry_run=true')).status).toBe(422)
  expect(await people()).toContain('Mags')
  const restored = await restore(backup)
  expect(keptJson.parse(await restored.json())).toMatchObject({ rows: 1 })
  expect(await people()).not.toContain('Mags')
  expect(await people()).toContain('Tilde')
  expect(await end()).toBe(0)
})

const elsewhere = Object.values(networkInterfaces())
  .flat()
  .find((each) => each?.family === 'IPv4' && !each.internal)?.address

test.skipIf(elsewhere === undefined)(
  'from another address: a pass-phrase first, then a log-in',
  async () => {
    const data = newFolder()
    const words = ['serve', '--port', '0', '--host', '0.0.0.0', '--data', data]
    const without = runCli(words)
    expect([without.exit, without.err]).toEqual([2, expect.stringContaining('needs a pass-phrase')])
    const setUp = (input: string): number | null =>
      runCli(['serve', '--new-pass-phrase', '--data', data], { input }).exit
    expect(setUp('too short\n')).toBe(2)
    expect(setUp(`${passPhrase}\n`)).toBe(0)
    const file = join(data, 'access.json')
    expect(statSync(file).mode & 0o777).toBe(0o600)
    expect(readFileSync(file, 'utf8')).not.toContain(passPhrase)
    const { port, said, end } = await start('--host', '0.0.0.0', '--data', data)
    const host = elsewhere!
    expect(said).toContain(`Reelreckon is at http://localhost:${port}/`)
    expect(said).toContain(`http://${host}:${port}/`)
    expect(said).not.toContain('0.0.0.0')
    expect(said).toContain('Over plain http others on the network can listen')
    const first = await call(port, '/api/reels', { host })
    expect([first.status, codeOf(first)]).toEqual([401, 'log_in_needed'])
    const logIn = (pass_phrase: string): Promise<Told> =>
      call(port, '/api/session', { host, method: 'POST', body: JSON.stringify({ pass_phrase }) })
    expect((await logIn('gulls sleep on two legs')).status).toBe(401)
    const cookie = String((await logIn(passPhrase)).headers['set-cookie']).split(';')[0]!
    expect((await call(port, '/api/reels', { host, headers: { cookie } })).status).toBe(200)
    expect((await call(port, '/api/reels', { headers: { cookie: 'reelreckon=1' } })).status).toBe(
      401,
    )
    const other = `${passPhrase} or on two`
    expect(setUp(`${other}\n`)).toBe(0)
    expect((await call(port, '/api/reels', { host, headers: { cookie } })).status).toBe(401)
    expect((await logIn(other)).status).toBe(200)
    expect(await end()).toBe(0)
  },
)

const refusedWith = (words: readonly string[]): readonly [number | null, string] => {
  const { exit, err } = runCli(['serve', ...words])
  return [exit, err.replaceAll(/\s+/g, ' ')]
}

test('what keeps it from serving is said in a sentence', async () => {
  const { port, end } = await start('--demo')
  expect(refusedWith(['--demo', '--port', String(port)])).toEqual([
    2,
    expect.stringContaining(`Port ${port} is taken`),
  ])
  await end()
  const file = join(newFolder(), 'file')
  writeFileSync(file, 'not a folder')
  expect(refusedWith(['--port', '0', '--data', file])[0]).toBe(4)
  expect(refusedWith(['--port', 'http'])).toEqual([2, expect.stringContaining('is no port')])
  expect(refusedWith(['--demo', '--data', file])[0]).toBe(2)
})
