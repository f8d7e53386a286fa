// What is asked depends on what was answered before.
/* oxlint-disable no-await-in-loop */
import { expect, test } from 'vitest'
import { newTokenJson, problemJson, sessionJson } from '../../src/contract/index.ts'
import { passPhrase, type Served, served } from './served.ts'

const codeOf = async (answer: Response): Promise<string> =>
  problemJson.parse(await answer.json()).code

test.each([
  ['evil.example', 421],
  ['localhost.evil.example', 421],
  ['evil.example:80', 421],
  ['localhost@evil.example', 421],
  ['evil.example/localhost', 421],
  ['localhost', 200],
  ['LOCALHOST:4173', 200],
])('called as %s: %i', async (host, status) => {
  const { ask } = await served()
  for (const path of ['/', '/api/reels', '/healthz']) {
    const answer = await ask('GET', path, undefined, { host })
    expect(answer.status).toBe(status)
    if (status !== 200) expect(await codeOf(answer)).toBe('host_unknown')
  }
})

test.each([
  ['a page elsewhere', { 'sec-fetch-site': 'cross-site' }, 403],
  ['a page of the same site', { 'sec-fetch-site': 'same-site' }, 403],
  ['another origin', { origin: 'http://evil.example' }, 403],
  ['another port', { origin: 'http://localhost:9999' }, 403],
  ['no origin', { origin: 'null' }, 403],
  ['its own page', { 'sec-fetch-site': 'same-origin', origin: 'http://localhost' }, 201],
  ['its own page without fetch metadata', { origin: 'http://localhost' }, 201],
  ['a program', {}, 201],
])('a write asked for by %s: %i', async (_, headers, status) => {
  const { ask, store } = await served({ isEmpty: true })
  const answer = await ask('POST', '/api/rows/person', { name: 'Tilde' }, headers)
  expect(answer.status).toBe(status)
  expect(await store.catalogue()).toHaveLength(status === 201 ? 1 : 0)
})

test.each([
  { forwarded: 'for=192.0.2.60;proto=http;by=203.0.113.43' },
  { 'X-Forwarded-For': '192.0.2.60' },
  { 'x-forwarded-host': 'localhost' },
])('through a proxy only where logging in is needed: %o', async (headers) => {
  const open = await served()
  for (const path of ['/', '/api/reels', '/api/session']) {
    const answer = await open.ask('GET', path, undefined, headers)
    expect([answer.status, await codeOf(answer)]).toEqual([403, 'proxy_without_log_in'])
  }
  const row = { name: 'Eve' }
  expect((await open.ask('POST', '/api/rows/person', row, headers)).status).toBe(403)
  const closed = await served({ isNeeded: true })
  expect((await closed.ask('GET', '/api/session', undefined, headers)).status).toBe(200)
  expect((await closed.ask('GET', '/api/reels', undefined, headers)).status).toBe(401)
})

test('a form can not write', async () => {
  const { ask } = await served()
  const type = { 'content-type': 'application/x-www-form-urlencoded' }
  expect((await ask('POST', '/api/rows/person', 'name=Tilde', type)).status).toBe(415)
})

test.each(['/', '/api', '/api/reels', '/nothing.js', '/api/nothing'])(
  '%s has a strict policy',
  async (path) => {
    const { ask } = await served()
    const { headers } = await ask('GET', path)
    const policy = headers.get('content-security-policy') ?? ''
    expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval';")
    expect(policy).toContain("frame-ancestors 'none'")
    expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|\*/)
    const permissions = (headers.get('permissions-policy') ?? '').split(', ')
    expect(permissions).toEqual(expect.arrayContaining(['serial=(self)', 'clipboard-write=(self)']))
    for (const each of ['camera', 'microphone', 'geolocation', 'usb', 'hid']) {
      expect(permissions).toContain(`${each}=()`)
    }
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    expect(headers.get('access-control-allow-origin')).toBeNull()
  },
)

const logIn = ({ ask }: Served, typed: string, headers = {}): Promise<Response> =>
  ask('POST', '/api/session', { pass_phrase: typed }, headers)

test('where logging in is needed nothing is told before', async () => {
  const server = await served({ isNeeded: true })
  const { ask } = server
  const asked = ['/api/reels', '/api/export', '/api/backup', '/api/changes', '/api/tokens']
  for (const path of asked) {
    const answer = await ask('GET', path)
    expect(answer.status).toBe(401)
    expect(await codeOf(answer)).toBe('log_in_needed')
  }
  expect((await ask('POST', '/api/rows/person', { name: 'Eve' })).status).toBe(401)
  const state = sessionJson.parse(await (await ask('GET', '/api/session')).json())
  expect(state).toEqual({
    log_in_needed: true,
    logged_in: false,
    may: null,
    demo: false,
    ledger_id: null,
  })
  const answer = await logIn(server, passPhrase)
  const cookie = answer.headers.get('set-cookie') ?? ''
  expect(cookie).toMatch(
    /^reelreckon=[0-9a-f]{64}; Max-Age=2592000; Path=\/; HttpOnly; SameSite=Strict$/,
  )
  const sent = { cookie: cookie.split(';')[0] }
  expect((await ask('GET', '/api/reels', undefined, sent)).status).toBe(200)
  expect((await ask('GET', '/api/reels', undefined, { cookie: 'reelreckon=00' })).status).toBe(401)
  await ask('DELETE', '/api/session', undefined, sent)
  expect((await ask('GET', '/api/reels', undefined, sent)).status).toBe(401)
})

test('a page that was open while the server began anew logs in, whatever ledger it showed', async () => {
  const server = await served({ isNeeded: true })
  const stale = { 'reelreckon-ledger': '99' }
  const answer = await logIn(server, passPhrase, stale)
  expect(answer.status).toBe(200)
  const mine = { ...stale, cookie: answer.headers.get('set-cookie')?.split(';')[0] }
  const made = await server.ask('POST', '/api/tokens', { name: 'scale' }, mine)
  const { id } = newTokenJson.parse(await made.json())
  expect((await server.ask('DELETE', `/api/tokens/${id}`, undefined, mine)).status).toBe(200)
  const late = await server.ask('POST', '/api/rows/person', { name: 'Tilde' }, mine)
  expect([late.status, await codeOf(late)]).toEqual([409, 'ledger_exchanged'])
  expect((await server.ask('DELETE', '/api/session', undefined, mine)).status).toBe(200)
})

test('who logs out, or whose token is taken back, hears no more of what is written', async () => {
  const server = await served({ isNeeded: true })
  const { ask } = server
  const newCookie = async () =>
    (await logIn(server, passPhrase)).headers.get('set-cookie')?.split(';')[0]
  const listen = async (headers: object) => {
    const answer = await ask('GET', '/api/changes', undefined, headers)
    return answer.body!.pipeThrough(new TextDecoderStream()).getReader()
  }
  /** To the end, or to the next change. */
  const next = async (reader: Awaited<ReturnType<typeof listen>>): Promise<string> => {
    const { done, value = '' } = await reader.read()
    if (done) return 'end'
    return value.startsWith('event: here') ? next(reader) : 'change'
  }
  const [cookie, other] = [await newCookie(), await newCookie()]
  const made = await ask('POST', '/api/tokens', { name: 'scale' }, { cookie: other })
  const { token, id } = newTokenJson.parse(await made.json())
  const mine = await listen({ cookie })
  const theirs = await listen({ cookie: other })
  const program = await listen({ authorization: `Bearer ${token}` })
  expect([await next(mine), await next(theirs), await next(program)]).toEqual([
    'change',
    'change',
    'change',
  ])
  await ask('DELETE', '/api/session', undefined, { cookie })
  expect(await next(mine)).toBe('end')
  await ask('DELETE', `/api/tokens/${id}`, undefined, { cookie: other })
  expect(await next(program)).toBe('end')
  await ask('POST', '/api/rows/person', { name: 'Tilde' }, { cookie: other })
  expect(await next(theirs)).toBe('change')
  server.setPassPhrase('terns nest on the shingle')
  const anew = await logIn(server, 'terns nest on the shingle')
  const now = { cookie: anew.headers.get('set-cookie')?.split(';')[0] }
  await ask('POST', '/api/rows/person', { name: 'Mags' }, now)
  expect(await next(theirs)).toBe('end')
})

test('a session ends after a month', async () => {
  const server = await served({ isNeeded: true })
  const cookie = (await logIn(server, passPhrase)).headers.get('set-cookie')?.split(';')[0]
  server.wait(29 * 86_400_000)
  expect((await server.ask('GET', '/api/reels', undefined, { cookie })).status).toBe(200)
  server.wait(86_400_001)
  expect((await server.ask('GET', '/api/reels', undefined, { cookie })).status).toBe(401)
})

test('a new pass-phrase ends the sessions of the old one, and no token', async () => {
  const server = await served({ isNeeded: true })
  const cookie = (await logIn(server, passPhrase)).headers.get('set-cookie')?.split(';')[0]
  const made = await server.ask('POST', '/api/tokens', { name: 'scale' }, { cookie })
  const authorization = `Bearer ${newTokenJson.parse(await made.json()).token}`
  server.setPassPhrase('terns nest on the shingle')
  expect((await server.ask('GET', '/api/reels', undefined, { cookie })).status).toBe(401)
  expect((await server.ask('GET', '/api/reels', undefined, { authorization })).status).toBe(200)
  expect((await logIn(server, passPhrase)).status).toBe(401)
  const answer = await logIn(server, 'terns nest on the shingle')
  const mine = { cookie: answer.headers.get('set-cookie')?.split(';')[0] }
  expect((await server.ask('GET', '/api/reels', undefined, mine)).status).toBe(200)
})

test('behind https the cookie is held to it', async () => {
  const server = await served({ isNeeded: true })
  const answer = await logIn(server, passPhrase, { origin: 'https://localhost' })
  expect(answer.headers.get('set-cookie')).toMatch(/^__Host-reelreckon=.*; Secure;/)
})

test('wrong pass-phrases make one address wait, longer each time', async () => {
  const server = await served({ isNeeded: true })
  for (let i = 0; i < 3; i++) {
    const answer = await logIn(server, 'a wrong pass-phrase')
    expect([answer.status, await codeOf(answer)]).toEqual([401, 'pass_phrase_wrong'])
  }
  const waits: number[] = []
  for (let i = 0; i < 12; i++) {
    // The right one is not looked at either.
    const answer = await logIn(server, passPhrase)
    expect(answer.status).toBe(429)
    const seconds = Number(answer.headers.get('retry-after'))
    waits.push(seconds)
    server.wait(seconds * 1000)
    await logIn(server, 'a wrong pass-phrase')
  }
  expect(waits).toEqual([1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900])
  const elsewhere = await logIn(server, passPhrase, { 'x-test-address': 'elsewhere' })
  expect(elsewhere.status).toBe(200)
})

test('a token lets a program in, is shown once, and can be taken back', async () => {
  const server = await served({ isNeeded: true })
  const { ask } = server
  const cookie = (await logIn(server, passPhrase)).headers.get('set-cookie')?.split(';')[0]
  const wanted = { name: '<img onerror>', may: 'set_up' }
  const made = await ask('POST', '/api/tokens', wanted, { cookie })
  const { token, id } = newTokenJson.parse(await made.json())
  const bearer = { authorization: `Bearer ${token}` }
  expect((await ask('GET', '/api/reels', undefined, bearer)).status).toBe(200)
  const listed = await (await ask('GET', '/api/tokens', undefined, bearer)).text()
  expect(listed).toContain('<img onerror>')
  expect(listed).not.toContain(token)
  const wrong = { authorization: `Bearer ${'0'.repeat(64)}` }
  expect((await ask('GET', '/api/reels', undefined, wrong)).status).toBe(401)
  expect((await ask('DELETE', `/api/tokens/${id}`, undefined, { cookie })).status).toBe(200)
  expect((await ask('GET', '/api/reels', undefined, bearer)).status).toBe(401)
})

test.each([
  ['look', [200, 403, 403]],
  ['record', [200, 201, 403]],
  ['set_up', [200, 201, 201]],
] as const)('a token that may %s may that and no more', async (may, statuses) => {
  for (const isNeeded of [true, false]) {
    const server = await served({ isNeeded })
    const { ask } = server
    const cookie = (await logIn(server, passPhrase)).headers.get('set-cookie')?.split(';')[0] ?? ''
    const made = await ask('POST', '/api/tokens', { name: 'bench', may }, { cookie })
    const { token } = newTokenJson.parse(await made.json())
    const bearer = { authorization: `Bearer ${token}` }
    const asked = [
      await ask('GET', '/api/reels', undefined, bearer),
      await ask('POST', '/api/reels', { make: { name: 'Bight PLA', maker: 'Bight' } }, bearer),
      await ask('POST', '/api/rows/person', { name: 'Tilde' }, bearer),
    ]
    expect(asked.map(({ status }) => status)).toEqual(statuses)
    const refused = asked.find(({ status }) => status === 403)
    if (refused !== undefined) expect(await codeOf(refused)).toBe('token_may_not')
    const state = sessionJson.parse(
      await (await ask('GET', '/api/session', undefined, bearer)).json(),
    )
    expect(state.may).toBe(may)
  }
})

test('a token of which nothing else is said may only look', async () => {
  const { ask } = await served()
  const made = await ask('POST', '/api/tokens', { name: 'wall screen' })
  expect(newTokenJson.parse(await made.json()).may).toBe('look')
})

test('files of the app, and nothing else', async () => {
  const files = new Map([
    ['/index.html', '<!doctype html>'],
    ['/assets/app-1a2B3c4D.js', 'run()'],
    ['/worker.js', 'run()'],
  ])
  const asked: string[] = []
  const { ask } = await served({
    file: async (path) => {
      asked.push(path)
      const text = files.get(path)
      return text === undefined ? undefined : new TextEncoder().encode(text)
    },
  })
  const kept = async (path: string): Promise<readonly (string | null | number)[]> => {
    const { status, headers } = await ask('GET', path)
    return [status, headers.get('content-type'), headers.get('cache-control')]
  }
  const forEver = 'public, max-age=31536000, immutable'
  const script = 'text/javascript; charset=utf-8'
  expect(await kept('/assets/app-1a2B3c4D.js')).toEqual([200, script, forEver])
  expect(await kept('/worker.js')).toEqual([200, script, 'no-cache'])
  const index = [200, 'text/html; charset=utf-8', 'no-cache']
  expect(await kept('/')).toEqual(index)
  expect(await kept('/reels/K7RM4')).toEqual(index)
  for (const path of [
    '/gone.js',
    '/..%2f..%2fsecret.json',
    '/.git/config.json',
    '/%zz',
    '/%ff',
    '/a%00.js',
  ]) {
    expect((await kept(path))[0]).toBe(404)
  }
  expect(asked.some((path) => path.includes('..') || path.includes('\0'))).toBe(false)
})
