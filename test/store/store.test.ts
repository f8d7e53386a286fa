// oxlint-disable no-await-in-loop -- one step after another is what is tested
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { PGlite } from '@electric-sql/pglite'
import SqliteDatabase from 'better-sqlite3'
import { PGliteDialect } from 'kysely'
import { afterAll } from 'vitest'
import { openMemoryStore, openPostgresStore, openStore } from '../../src/store/index.ts'
import { storeSuite, valueOf } from './store-suite.ts'

const home = mkdtempSync(join(tmpdir(), 'reelreckon-store-'))
afterAll(() => rmSync(home, { recursive: true }))
let count = 0
let folder = ''

storeSuite({
  name: 'a file of SQLite',
  fresh: async () => {
    folder = join(home, String(count++))
    return valueOf(await openStore(folder))
  },
  again: async () => valueOf(await openStore(folder)),
  meddle: async (statement) => {
    const raw = new SqliteDatabase(join(folder, 'ledger.sqlite'))
    raw.pragma('foreign_keys = on')
    try {
      raw.exec(statement)
    } finally {
      raw.close()
    }
  },
})

storeSuite({ name: 'memory', fresh: async () => valueOf(await openMemoryStore()) })

/** Servers take seconds to start, so each is swept and used again. */
interface Server {
  readonly base: PGlite
  busy: boolean
}
const servers: Server[] = []
let server: Server

const sweptServer = async (): Promise<Server> => {
  const idle = servers.find(({ busy }) => !busy)
  if (idle === undefined) {
    const started: Server = { base: await PGlite.create(), busy: true }
    servers.push(started)
    return started
  }
  idle.busy = true
  await idle.base.exec('drop schema public cascade; create schema public')
  return idle
}

/** Kysely's dialect over a server that outlives it. */
const dialectOver = (one: Server): PGliteDialect =>
  new PGliteDialect({
    pglite: new Proxy(one.base, {
      get: (base, name) => {
        if (name === 'close') {
          return async () => {
            one.busy = false
          }
        }
        const value: unknown = Reflect.get(base, name, base)
        return typeof value === 'function' ? value.bind(base) : value
      },
    }),
  })
afterAll(async () => {
  for (const { base } of servers) await base.close()
})

storeSuite({
  name: 'PostgreSQL',
  fresh: async () => {
    server = await sweptServer()
    return valueOf(await openPostgresStore(dialectOver(server)))
  },
  again: async () => valueOf(await openPostgresStore(dialectOver(server))),
  meddle: async (statement) => {
    await server.base.exec(statement)
  },
})
