import type { MiddlewareHandler } from 'hono'
import { problem } from './problem.ts'

/** The app is scripts, styles and WebAssembly of this server and nothing else. */
const policy = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  // The hash is that of a rule for touch that React Aria sets.
  "style-src 'self' 'sha256-38RhXrc7EdReTKsOm23ZPOCUgniTUUcjky8QOOrQx6o='",
  "img-src 'self' data: blob:",
  "worker-src 'self'",
  "connect-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ')

/** What the app asks of the browser: a scale on a serial port, and to copy a token. */
const used = ['serial', 'clipboard-write']
const unused = [
  'accelerometer',
  'autoplay',
  'camera',
  'clipboard-read',
  'display-capture',
  'encrypted-media',
  'fullscreen',
  'geolocation',
  'gyroscope',
  'hid',
  'idle-detection',
  'local-fonts',
  'magnetometer',
  'microphone',
  'midi',
  'payment',
  'picture-in-picture',
  'publickey-credentials-create',
  'publickey-credentials-get',
  'screen-wake-lock',
  'storage-access',
  'usb',
  'window-management',
  'xr-spatial-tracking',
]
const permissions = [
  ...used.map((feature) => `${feature}=(self)`),
  ...unused.map((feature) => `${feature}=()`),
].join(', ')

const headers: Readonly<Record<string, string>> = {
  'content-security-policy': policy,
  'permissions-policy': permissions,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
}

/** What every answer carries; one that may do less has a policy of its own. @see W3C Content Security Policy Level 3; W3C Permissions Policy */
export const safeHeaders: MiddlewareHandler = async (context, next) => {
  await next()
  const own = context.res.headers.get('content-security-policy')
  for (const [name, value] of Object.entries(headers)) context.res.headers.set(name, value)
  if (own !== null) context.res.headers.set('content-security-policy', own)
}

/** `[::1]` of `[::1]:8080`, in lower case; undefined for what is no host. */
export const hostnameOf = (host: string): string | undefined => {
  if (/[/\\?#@\s]/.test(host)) return undefined
  return URL.parse(`http://${host}`)?.hostname
}

/**
 * Refuses requests that call the server by a name it does not have: a page elsewhere may have its
 * own name point at this machine (DNS rebinding), and then counts as this server's own.
 */
export const knownHost =
  (hosts: ReadonlySet<string>): MiddlewareHandler =>
  async (context, next) => {
    const host = context.req.header('host') ?? new URL(context.req.url).host
    const name = hostnameOf(host)
    if (name !== undefined && hosts.has(name)) return next()
    return problem(
      {
        code: 'host_unknown',
        message:
          'This server is not known by that name. Call it by its address, or start it with --name and this name.',
        received: host.slice(0, 100),
      },
      421,
    )
  }

const safe: ReadonlySet<string> = new Set(['GET', 'HEAD', 'OPTIONS'])

/**
 * Refuses writes that a page of another origin asks for. A browser says by `Sec-Fetch-Site` whose page
 * it is, or, to a server that is not on https or loopback, by `Origin`. What says neither is no browser.
 *
 * @see W3C Fetch Metadata Request Headers; RFC 6454, 7
 */
export const sameSite: MiddlewareHandler = async (context, next) => {
  if (safe.has(context.req.method)) return next()
  const site = context.req.header('sec-fetch-site')
  const origin = context.req.header('origin')
  const host = context.req.header('host') ?? new URL(context.req.url).host
  const isOwn =
    (site === undefined || site === 'same-origin' || site === 'none') &&
    (origin === undefined || URL.parse(origin)?.host === host)
  if (isOwn) return next()
  return problem(
    { code: 'cross_site', message: 'Only pages of this server may write. Open the app itself.' },
    403,
  )
}

/**
 * Refuses what comes through a proxy to a server that asks nobody to log in: to it everybody whom the
 * proxy serves would look like this machine.
 *
 * @param isLogInNeeded - then a proxy may stand before it
 * @see RFC 7239 for `Forwarded`; its older kin begin with `X-Forwarded-`
 */
export const noProxy =
  (isLogInNeeded: boolean): MiddlewareHandler =>
  async (context, next) => {
    if (isLogInNeeded) return next()
    const names = [...context.req.raw.headers.keys()].map((name) => name.toLowerCase())
    const told = names.find((name) => name === 'forwarded' || name.startsWith('x-forwarded-'))
    if (told === undefined) return next()
    return problem(
      {
        code: 'proxy_without_log_in',
        message:
          'This came through a proxy, and this server asks nobody to log in. Start it with --name and the name that the proxy has: then it asks for the pass-phrase.',
        received: told.slice(0, 100),
      },
      403,
    )
  }
