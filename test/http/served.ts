import type { Context } from 'hono'
import { harbourLedger } from '../../demo/ledger/harbour.ts'
import { runMatch } from '../../src/cli/run-match.ts'
import { pausedCopyOfUpload } from '../../src/cli/served-copy.ts'
import { pictureOfUpload } from '../../src/cli/served-picture.ts'
import { readingOfUpload } from '../../src/cli/served-reading.ts'
import type { KeptToken, Surroundings } from '../../src/http/index.ts'
import { type App, makeApp } from '../../src/http/index.ts'
import { openMemoryStore, type Store } from '../../src/store/index.ts'
import { accept, refuse } from '../../src/units/index.ts'
import { noon, valueOf } from '../shelf-bench.ts'

/** A server over a store in memory, with the harbour bench in it, and ways to ask it. */
export interface Served {
  readonly app: App
  readonly store: Store
  /** Moves the clock on, ms. */
  readonly wait: (ms: number) => void
  /** As `serve --new-pass-phrase` does while the server runs. */
  readonly setPassPhrase: (typed: string) => void
  readonly ask: (
    method: string,
    path: string,
    body?: unknown,
    headers?: object,
  ) => Promise<Response>
}

export const passPhrase = 'gulls sleep on one leg'

/** @param more - what differs from a server on loopback */
export const served = async (
  more: Partial<Surroundings> & { readonly isNeeded?: boolean; readonly isEmpty?: boolean } = {},
): Promise<Served> => {
  const store = valueOf(await openMemoryStore())
  const { isNeeded = false, isEmpty = false, ...rest } = more
  if (!isEmpty) valueOf(await store.append(harbourLedger()))
  let now = noon
  let demo: Store | undefined
  let number = 1
  let phrase = passPhrase
  let tokens: readonly KeptToken[] = []
  const app = makeApp({
    ledger: {
      store: () => demo ?? store,
      number: () => number,
      isDemo: () => demo !== undefined,
      setDemo: async (wanted, alone) =>
        alone(async () => {
          if (wanted === (demo !== undefined)) return accept(undefined)
          demo = wanted ? valueOf(await openMemoryStore()) : undefined
          if (demo !== undefined) valueOf(await demo.append(harbourLedger()))
          number++
          return accept(undefined)
        }),
      rehearsal: openMemoryStore,
      backUp: async () => accept(new Blob(['a copy']).stream() as ReadableStream<Uint8Array>),
      examine: async () => refuse({ code: 'not_a_ledger', message: 'No ledger.' }),
      restore: async () => refuse({ code: 'not_a_ledger', message: 'No ledger.' }),
    },
    now: () => now,
    hosts: new Set(['localhost']),
    file: async () => undefined,
    remoteOf: (context: Context) => context.req.header('x-test-address') ?? 'here',
    pollEvery: 20,
    pausedCopy: pausedCopyOfUpload,
    reading: readingOfUpload,
    picture: pictureOfUpload,
    match: runMatch,
    access: {
      isNeeded,
      checkPhrase: async (typed) => typed === phrase,
      phraseMark: async () => phrase,
      tokens: async () => tokens,
      keepTokens: async (kept) => {
        tokens = kept
      },
    },
    ...rest,
  })
  return {
    app,
    store,
    wait: (ms) => {
      now += ms
    },
    setPassPhrase: (typed) => {
      phrase = typed
    },
    ask: async (method, path, body, headers = {}) =>
      app.fetch(
        new Request(`http://localhost${path}`, {
          method,
          headers: {
            ...(body !== undefined && { 'content-type': 'application/json' }),
            ...headers,
          },
          ...(body !== undefined && {
            body:
              typeof body === 'string' || body instanceof Uint8Array
                ? (body as BodyInit)
                : JSON.stringify(body),
          }),
        }),
      ),
  }
}
