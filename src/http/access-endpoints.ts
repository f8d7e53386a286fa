import type { Context } from 'hono'
import { deleteCookie, setCookie } from 'hono/cookie'
import { z } from 'zod'
import {
  type LogInRequest,
  logInRequest,
  type MayJson,
  newTokenJson,
  type SessionJson,
  sessionJson,
  type TokenJson,
  type TokenRequest,
  tokenRequest,
  tokensJson,
} from '../contract/index.ts'
import { accept } from '../units/index.ts'
import { type Answer, type Endpoint, endpoint, NotFound, type Serving } from './endpoint.ts'
import { lookedUp } from './parameter.ts'
import { problem } from './problem.ts'
import { digestOf, newSecret } from './secrets.ts'
import { sessionLasts } from './sessions.ts'
import type { KeptToken } from './surroundings.ts'
import { cookieName, mayOf, secretsOf } from './who-may.ts'

/** A proxy speaks https for this server: the page's own address tells. */
const isHttps = (context: Context): boolean =>
  new URL(context.req.url).protocol === 'https:' ||
  context.req.header('origin')?.startsWith('https:') === true

/** Who is asking, and what of. */
export const sessionOf = async (serving: Serving, context: Context): Promise<SessionJson> =>
  stateOf(serving, await mayOf(serving, context))

const stateOf = async (
  { around: { access, ledger }, gate }: Serving,
  may: MayJson | null,
): Promise<SessionJson> => ({
  log_in_needed: access.isNeeded,
  logged_in: may !== null,
  may,
  demo: ledger.isDemo(),
  ledger_id: may === null ? null : await gate.read(() => ledger.store().ledgerId()),
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

/** A token without what its secret is known by. */
const shownToken = ({ sha256: _sha256, ...shown }: KeptToken): TokenJson => shown

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
    run: async ({ context, body, ...serving }) => {
      const { around, sessions, delay } = serving
      if (!around.access.isNeeded) return accept({ json: await stateOf(serving, 'set_up') })
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
      return accept({ json: await stateOf(serving, 'set_up') })
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
    run: async ({ context, ...serving }) => {
      const { around, sessions, feed } = serving
      await Promise.all(secretsOf(context).map((secret) => sessions.end(secret)))
      feed.askWhoMay()
      deleteCookie(context, cookieName.plain, { path: '/' })
      deleteCookie(context, cookieName.safe, { path: '/', secure: true })
      const may = around.access.isNeeded ? null : 'set_up'
      return accept({ json: await stateOf(serving, may) })
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
      return accept({ json: { tokens: tokens.map(shownToken) } })
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
        may: body.may ?? 'look',
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
    params: { token: lookedUp(z.string().regex(/^[0-9a-f]{12}$/), 'its id') },
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
      return accept({ json: { tokens: left.map(shownToken) } })
    },
  }),
]
