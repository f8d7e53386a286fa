import { type Context, Hono, type MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { streamSSE } from 'hono/streaming'
import type { z } from 'zod'
import type { ChangeJson, MayJson } from '../contract/index.ts'
import { gunzip } from '../print/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { appFile } from './app-files.ts'
import { ChangeFeed } from './change-feed.ts'
import {
  type Asked,
  type Endpoint,
  exchanged,
  isForOneLedger,
  meantLedger,
  type Serving,
} from './endpoint.ts'
import { endpoints } from './endpoints.ts'
import { Gate } from './gate.ts'
import { knownHost, noProxy, safeHeaders, sameSite } from './guard.ts'
import { LogInDelay } from './log-in-delay.ts'
import { openApi } from './openapi.ts'
import { packed } from './packed.ts'
import { checkParameter } from './parameter.ts'
import { problem } from './problem.ts'
import { readablePage, readablePageStyle } from './readable-page.ts'
import { Searches } from './searches.ts'
import { newSecret } from './secrets.ts'
import { Sessions } from './sessions.ts'
import type { Surroundings } from './surroundings.ts'
import { refusalOfThrown } from './thrown.ts'
import { mayFor, mayOf, suffices } from './who-may.ts'

/** The server without a socket. */
export interface App {
  readonly fetch: (request: Request, env?: object) => Response | Promise<Response>
  /** Ends what is told live, so that a server can stop; waits for writes under way. */
  readonly end: () => Promise<void>
}

const usualLimit = 2 ** 20
/** Pages that listen at once. */
const mostListeners = 200
/** A page that hears nothing for longer takes the network to be gone, see `followChanges`. */
const heartbeat = 15_000

/** Everything the server does, over the surroundings it is handed. */
export const makeApp = (around: Surroundings): App => {
  const gate = new Gate()
  const look = (): Promise<ChangeJson> =>
    gate.read(async () => ({
      ledger: around.ledger.number(),
      ledger_id: await around.ledger.store().ledgerId(),
      revision: await around.ledger.store().revision(),
    }))
  const feed = new ChangeFeed(look, around.pollEvery)
  const serving: Serving = {
    around,
    feed,
    gate,
    mark: newSecret().slice(0, 12),
    sessions: new Sessions(around.now),
    delay: new LogInDelay(around.now),
    searches: new Searches(),
  }
  const app = new Hono()
  app.use(safeHeaders, knownHost(around.hosts), noProxy(around.access.isNeeded), sameSite)
  app.use(packed(around.remoteOf))
  app.onError((error) => problem(...refusalOfThrown(error)))
  app.get('/healthz', (context) => context.json({ status: 'ok' }))
  app.get('/readyz', async (context) => {
    try {
      await look()
    } catch {
      return problem({ code: 'busy', message: 'The ledger can not be read for now.' })
    }
    return context.json({ status: 'ok' })
  })
  const api = openApi()
  app.get('/api', (context) => context.html(readablePage(api)))
  app.get('/api/page.css', (context) =>
    context.body(readablePageStyle, 200, { 'content-type': 'text/css; charset=utf-8' }),
  )
  app.get('/api/openapi.json', (context) => context.json(api))
  app.get('/api/changes', async (context) =>
    (await mayOf(serving, context)) === null ? logInFirst() : changes(context, serving),
  )
  for (const each of endpoints) {
    const path = each.path
      .replace('/prints/{print}', '/prints/:print{.+}')
      .replaceAll(/\{(\w+)\}/g, ':$1')
    app.on(
      each.method.toUpperCase(),
      path,
      async (context, next) => {
        if (each.open === true) return next()
        const may = await mayOf(serving, context)
        if (may === null) return logInFirst()
        return suffices(may, mayFor(each)) ? next() : mayNot(may, mayFor(each))
      },
      limited(each),
      (context) => serve(each, context, serving),
    )
  }
  app.all('/api/*', () =>
    problem({ code: 'not_found', message: 'The API has nothing there. See /api.' }),
  )
  app.get('*', (context) => appFile(around, context))
  app.notFound(() => problem({ code: 'not_found', message: 'There is nothing there.' }))
  return {
    fetch: (request, env) => app.fetch(request, env),
    end: async () => {
      feed.end()
      await gate.write(() => Promise.resolve())
    },
  }
}

const logInFirst = (): Response =>
  problem({ code: 'log_in_needed', message: 'Log in with the pass-phrase first.' }, 401)

const words: Readonly<Record<MayJson, string>> = {
  look: 'look',
  record: 'record',
  set_up: 'set up',
}

const mayNot = (has: MayJson, takes: MayJson): Response =>
  problem(
    {
      code: 'token_may_not',
      message: `This token may ${words[has]}, and this takes one that may ${words[takes]}. Make one for it in Set-up.`,
      expected: takes,
      received: has,
    },
    403,
  )

/**
 * Refuses bodies that are too large. Where the length is told, which Node holds a client to, the body is
 * not touched: to look at it makes a stream of it, which takes longer than the rest of a request.
 */
const limited = (each: Endpoint): MiddlewareHandler => {
  const { limit: maxSize = usualLimit } = each
  const counted = bodyLimit({ maxSize, onError: () => tooLarge(each) })
  return (context, next) => {
    const told = context.req.header('content-length')
    if (told === undefined || context.req.header('transfer-encoding') !== undefined) {
      return counted(context, next)
    }
    return Number(told) > maxSize ? Promise.resolve(tooLarge(each)) : next()
  }
}

const tooLarge = ({ limit = usualLimit }: Endpoint): Response =>
  problem({
    code: 'too_large',
    message: `What was sent is too large: ${limit} bytes at most.`,
    expected: `${limit} bytes at most`,
  })

const serve = async (each: Endpoint, context: Context, serving: Serving): Promise<Response> => {
  const { around, feed, gate } = serving
  const query: Record<string, string> = {}
  for (const [name, parameter] of Object.entries(each.query ?? {})) {
    const typed = context.req.query(name)
    if (typed === undefined) continue
    const fits = checkParameter(name, parameter, typed)
    if (!fits.ok) return problem(fits.refusal)
    query[name] = typed
  }
  const body = await bodyOf(each, context)
  if (!body.ok) return problem(body.refusal, statusOfBody[body.refusal.code])
  const asked: Asked<unknown> = {
    ...serving,
    context,
    params: context.req.param() as Readonly<Record<string, string>>,
    query,
    body: body.value,
    handed: (by) => ({
      store: around.ledger.store(),
      now: around.now,
      randomByte,
      ...(by !== undefined && { by }),
    }),
  }
  const work = async (): ReturnType<Endpoint['run']> => {
    if (await isMeantForAnother(each, context, around.ledger)) return refuse(exchanged)
    if (each.isOfRevision !== true) return each.run(asked)
    // Taken before the work: what is written meanwhile makes the answer newer than its tag, never older.
    const tag = `W/"${serving.mark}-${around.ledger.number()}-${await around.ledger.store().revision()}"`
    const caching = { etag: tag, 'cache-control': 'private, no-cache' }
    const known = (context.req.header('if-none-match') ?? '').split(',').map((one) => one.trim())
    if (known.includes(tag)) {
      return accept({ response: new Response(null, { status: 304, headers: caching }) })
    }
    const done = await each.run(asked)
    if (done.ok) for (const [name, value] of Object.entries(caching)) context.header(name, value)
    return done
  }
  const done = await (each.gate === 'none' ? work() : gate[each.gate](work))
  if (each.method !== 'get') void feed.nudge()
  if (!done.ok) return problem(done.refusal)
  if ('response' in done.value) return done.value.response
  if (each.isOfRevision !== true) context.header('cache-control', 'no-store')
  if ('bytes' in done.value) {
    return context.body(done.value.bytes, 200, { 'content-type': 'application/json' })
  }
  const { json, status = 200 } = done.value
  return context.json(json as object, status)
}

/**
 * Who asks may say which ledger is meant, as `ID` or `ID/NUMBER` by what `change` told, so that nothing
 * is written to the one that took its place. What writes nothing to a ledger is answered all the same: a
 * page left open has to log in anew.
 */
const isMeantForAnother = async (
  each: Endpoint,
  context: Context,
  { store, number }: Surroundings['ledger'],
): Promise<boolean> => {
  const meant = context.req.header(meantLedger)
  if (!isForOneLedger(each) || meant === undefined) return false
  const [id, turn] = meant.split('/')
  return id !== (await store().ledgerId()) || (turn !== undefined && turn !== String(number()))
}

const randomByte = (): number => crypto.getRandomValues(new Uint8Array(1))[0]!

const statusOfBody: Readonly<Record<string, number>> = { body_no_json: 400, body_type: 415 }

const bodyOf = async (
  { body, limit = usualLimit }: Endpoint,
  context: Context,
): Promise<Outcome<unknown>> => {
  if (body === undefined) return accept(undefined)
  const type = (context.req.header('content-type') ?? '').split(';')[0]!.trim().toLowerCase()
  const wanted = typeof body === 'string' ? body : 'application/json'
  if (type !== wanted) {
    return refuse({
      code: 'body_type',
      message: `Send it as ${wanted}.`,
      expected: wanted,
      received: type,
    })
  }
  if (typeof body === 'string') {
    if (wanted === 'application/x-ndjson') return linesOf(context, limit)
    return accept(context.req.raw.body ?? new ReadableStream())
  }
  let value: unknown
  try {
    value = JSON.parse(await context.req.text())
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error
    return refuse({ code: 'body_no_json', message: 'The body is no complete JSON.' })
  }
  const checked = body.safeParse(value)
  if (checked.success) return accept(checked.data)
  const issue = plainest(checked.error.issues)
  const place = issue?.path.join('.') ?? ''
  return refuse({
    code: 'request_invalid',
    message: `${place === '' ? 'The body' : place}: ${issue?.message ?? 'not understood'}. See /api.`,
    ...(place !== '' && { received: place }),
  })
}

/** Text, packed with gzip or not: by its first bytes, whatever is said of it. */
const linesOf = async (context: Context, most: number): Promise<Outcome<string>> => {
  const bytes = gunzip(new Uint8Array(await context.req.arrayBuffer()), most)
  if (!bytes.ok) return bytes
  try {
    return accept(new TextDecoder('utf-8', { fatal: true }).decode(bytes.value))
  } catch (error) {
    if (!(error instanceof TypeError)) throw error
    return refuse({
      code: 'not_utf8',
      message: 'This is not text in UTF-8. Save it as UTF-8 and try again.',
    })
  }
}

/** The first thing that is wrong; of alternatives, in the one that knows most of the keys. */
const plainest = (issues: readonly z.core.$ZodIssue[]): z.core.$ZodIssue | undefined => {
  const [issue] = issues
  if (issue?.code !== 'invalid_union' || issue.errors.length === 0) return issue
  const inside = plainest(issue.errors.reduce((a, b) => (strangeIn(b) < strangeIn(a) ? b : a)))
  return inside && { ...inside, path: [...issue.path, ...inside.path] }
}

const strangeIn = (issues: readonly z.core.$ZodIssue[]): number =>
  issues.flatMap((issue) => (issue.code === 'unrecognized_keys' ? issue.keys : [])).length

const changes = (context: Context, serving: Serving): Response => {
  const { feed } = serving
  if (feed.listeners >= mostListeners) {
    return problem({ code: 'busy', message: 'Too many pages are open. Close some.' })
  }
  // A proxy that holds events back would make them late.
  context.header('x-accel-buffering', 'no')
  const response = streamSSE(context, async (stream) => {
    const state: { pending?: ChangeJson; isOver: boolean; isDoubted: boolean; wake: () => void } = {
      isOver: false,
      isDoubted: false,
      wake: () => undefined,
    }
    const stop = feed.listen((heard) => {
      if (heard === undefined) state.isOver = true
      else if (heard === 'who_may') state.isDoubted = true
      else state.pending = heard
      state.wake()
    })
    stream.onAbort(() => {
      state.isOver = true
      state.wake()
    })
    try {
      /* oxlint-disable no-await-in-loop -- a stream sends one event after another */
      while (!state.isOver) {
        if (state.pending === undefined && !state.isDoubted) {
          const { promise, resolve } = Promise.withResolvers<void>()
          state.wake = resolve
          const timer = setTimeout(resolve, heartbeat)
          await promise
          clearTimeout(timer)
        }
        // Who listens may have logged out, or be out since another pass-phrase was set.
        state.isDoubted = false
        if ((await mayOf(serving, context)) === null) break
        const { pending } = state
        delete state.pending
        const event =
          pending === undefined
            ? 'event: here\ndata: still\n\n'
            : `event: change\nid: ${pending.ledger}-${pending.revision}\ndata: ${JSON.stringify(pending)}\n\n`
        if (!state.isOver || pending !== undefined) await stream.write(event)
      }
      /* oxlint-enable no-await-in-loop */
    } finally {
      stop()
    }
  })
  // A worker or cache must not keep it.
  response.headers.set('cache-control', 'no-store')
  return response
}
