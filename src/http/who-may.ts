import type { Context } from 'hono'
import { getCookie } from 'hono/cookie'
import { type MayJson, mays } from '../contract/index.ts'
import type { Endpoint, Serving } from './endpoint.ts'
import { digestOf } from './secrets.ts'

/** Where the connection is safe the name says so, and a browser holds the cookie to it. */
export const cookieName = { safe: '__Host-reelreckon', plain: 'reelreckon' } as const

/** The secrets of sessions that were sent. */
export const secretsOf = (context: Context): readonly string[] =>
  Object.values(cookieName).flatMap((name) => getCookie(context, name) ?? [])

/**
 * What who is asking may do; null for who has to log in first. A token holds where nobody else need log
 * in, too: it may what it was made for.
 */
export const mayOf = async (
  { around: { access }, sessions }: Serving,
  context: Context,
): Promise<MayJson | null> => {
  const [, token] = /^Bearer ([0-9a-f]{64})$/i.exec(context.req.header('authorization') ?? '') ?? []
  if (token !== undefined) {
    const digest = await digestOf(token.toLowerCase())
    const known = (await access.tokens()).find(({ sha256 }) => sha256 === digest)
    if (known !== undefined || access.isNeeded) return known?.may ?? null
  }
  if (!access.isNeeded) return 'set_up'
  const secrets = secretsOf(context)
  if (secrets.length === 0) return null
  const phraseMark = await access.phraseMark()
  const known = await Promise.all(secrets.map((secret) => sessions.has(secret, phraseMark)))
  return known.includes(true) ? 'set_up' : null
}

/** Whether one who may this much may do what takes that much. */
export const suffices = (has: MayJson, takes: MayJson): boolean =>
  mays.indexOf(has) >= mays.indexOf(takes)

/** What one has to be allowed to use an endpoint: what changes nothing is for all who may look. */
export const mayFor = ({ method, gate, tag, replaces, onlyLooks }: Endpoint): MayJson => {
  if (tag === 'access' || replaces === true) return 'set_up'
  if (method === 'get' || gate === 'read' || onlyLooks === true) return 'look'
  return tag === 'catalogue' || tag === 'ledger' ? 'set_up' : 'record'
}
