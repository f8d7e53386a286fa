import type { Context } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import {
  type LogInRequest,
  logInRequest,
  newTokenJson,
  type SessionJson,
  sessionJson,
  type TokenRequest,
  tokenRequest,
  tokensJson,
} from '../contract/index.ts'
import { accept } from '../units/index.ts'
import { type Answer, type Endpoint, endpoint, NotFound, type Serving } from './endpoint.ts'
import { problem } from './problem.ts'
import { digestOf, newSecret } from './secrets.ts'
import { sessionLasts } from './sessions.ts'

/** Where the connection is safe the name says so, and a browser holds the cookie to it. */
const cookieName = { safe: '__Host-reelreckon', plain: 'reelreckon' } as const

const secretsOf = (context: Context): readonly string[] =>
  Object.values(cookieName).flatMap((name) => getCookie(context, name) ?? [])

/** A proxy speaks https for this server: the page's own address tells. */
const isHttps = (context: Context): boolean =>
  new URL(context.req.url).protocol === 'https:' ||
  context.req.header('origin')?.startsWith('https:') === true

/** Whether who is asking may use everything. */
export const isLetIn = async (
  { around: { access }, sessions }: Serving,
  context: Context,
): Promise<boolean> => {
  if (!access.isNeeded) return true
  const [, token] = /^Bearer ([0-9a-f]{64})$/i.exec(context.req.header('authorization') ?? '') ?? []
  if (token !== undefined) {
    const digest = await digestOf(token.toLowerCase())
    return (await access.tokens()).some(({ sha256 }) => sha256 === digest)
  }
  const secrets = secretsOf(context)
  if (secrets.length === 0) return false
  const phraseMark = await access.phraseMark()
  const known = await Promise.all(secrets.map((secret) => sessions.has(secret, phraseMark)))
  return known.includes(true)
}

/** Who is asking, and what of. */
export const sessionOf = async (serving: Serving, context: Context): Promise<SessionJson> => ({
  log_in_needed: serving.around.access.isNeeded,
  logged_in: await isLetIn(serving, context),
  demo: serving.around.ledger.isDemo(),
})

const wait = (seconds: number): Answer => ({
  response: problem(
    {
      code: 'log_in_too_often',
      message: `Too many wrong pass-phrases. Try again in ${seconds} s.`,
    },
    429,
    { 'retry-after': String(seconds) },
  ),
})

/** One pass-phrase at a time is checked: it takes memory on purpose. */
let checking: Promise<unknown> = Promise.resolve()

/** Logging in and out, and tokens for programs. */
export const accessEndpoints: readonly Endpoint[] = [
  endpoint({
    id: 'showSession',
    tag: 'access',
    method: 'get',
    path: '/api/session',
    summary: 'Whether logging in is needed, and done.',
    answer: sessionJson,
    open: true,
    gate: 'none',
    run: async (asked) => accept({ json: await sessionOf(asked, asked.context) }),
  }),
  endpoint<LogInRequest>({
    id: 'logIn',
    tag: 'access',
    method: 'post',
    path: '/api/session',
    summary: 'Logs in with the pass-phrase; the session is a cookie.',
    body: logInRequest,
    answer: sessionJson,
    open: true,
    limit: 4096,
    gate: 'none',
    run: async ({ around, sessions, delay, context, body }) => {
      const json: SessionJson = {
        log_in_needed: around.access.isNeeded,
        logged_in: true,
        demo: around.ledger.isDemo(),
      }
      if (!around.access.isNeeded) return accept({ json })
      const address = around.remoteOf(context)
      const seconds = delay.wait(address)
      if (seconds > 0) return accept(wait(seconds))
      delay.tried(address)
      // Taken before: where another is set meanwhile this session is void, never one of the new phrase.
      const phraseMark = await around.access.phraseMark()
      const turn = checking.then(() => around.access.checkPhrase(body.pass_phrase))
      checking = turn.catch(() => undefined)
      if (!(await turn)) {
        return accept({
          response: problem(
            { code: 'pass_phrase_wrong', message: 'That is not the pass-phrase.' },
            401,
          ),
        })
      }
      delay.succeeded(address)
      const secure = isHttps(context)
      const secret = await sessions.begin(phraseMark)
      setCookie(context, secure ? cookieName.safe : cookieName.plain, secret, {
        httpOnly: true,
        sameSite: 'Strict',
        secure,
        path: '/',
        maxAge: sessionLasts,
      })
      return accept({ json })
    },
  }),
  endpoint({
    id: 'logOut',
    tag: 'access',
    method: 'delete',
    path: '/api/session',
    summary: 'Logs out.',
    answer: sessionJson,
    open: true,
    gate: 'none',
    run: async ({ around, sessions, feed, context }) => {
      await Promise.all(secretsOf(context).map((secret) => sessions.end(secret)))
      feed.askWhoMay()
      deleteCookie(context, cookieName.plain, { path: '/' })
      deleteCookie(context, cookieName.safe, { path: '/', secure: true })
      const { isNeeded } = around.access
      const json: SessionJson = {
        log_in_needed: isNeeded,
        logged_in: !isNeeded,
        demo: around.ledger.isDemo(),
      }
      return accept({ json })
    },
  }),
  endpoint({
    id: 'listTokens',
    tag: 'access',
    method: 'get',
    path: '/api/tokens',
    summary: 'The tokens that programs log in with.',
    answer: tokensJson,
    gate: 'none',
    run: async ({ around }) => {
      const tokens = await around.access.tokens()
      return accept({
        json: { tokens: tokens.map(({ id, name, made_at }) => ({ id, name, made_at })) },
      })
    },
  }),
  endpoint<TokenRequest>({
    id: 'addToken',
    tag: 'access',
    method: 'post',
    path: '/api/tokens',
    summary: 'A new token, sent as `Authorization: Bearer TOKEN`; shown this once.',
    body: tokenRequest,
    answer: newTokenJson,
    writes: true,
    gate: 'write',
    run: async ({ around: { access, now }, body }) => {
      const token = newSecret()
      const one = {
        id: newSecret().slice(0, 12),
        name: body.name,
        made_at: new Date(now()).toISOString(),
      }
      await access.keepTokens([
        ...(await access.tokens()),
        { ...one, sha256: await digestOf(token) },
      ])
      return accept({ status: 201, json: { ...one, token } })
    },
  }),
  endpoint({
    id: 'removeToken',
    tag: 'access',
    method: 'delete',
    path: '/api/tokens/{token}',
    summary: 'Takes a token back.',
    params: { token: 'its id' },
    answer: tokensJson,
    gate: 'write',
    run: async ({ around: { access }, feed, params }) => {
      const before = await access.tokens()
      const left = before.filter(({ id }) => id !== params['token'])
      if (left.length === before.length) {
        throw new NotFound({ code: 'token_unknown', message: 'There is no such token.' })
      }
      await access.keepTokens(left)
      feed.askWhoMay()
      return accept({
        json: { tokens: left.map(({ id, name, made_at }) => ({ id, name, made_at })) },
      })
    },
  }),
]
