// oxlint-disable no-await-in-loop -- one step after another is what is tested
import { spawnSync } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import SqliteDatabase from 'better-sqlite3'
import { afterAll, describe, expect, test } from 'vitest'
import { openStore } from '../../src/store/index.ts'
import { catalogue, opening, reel, scale } from './records.ts'
import { valueOf } from './store-suite.ts'

// What a kill can not show, because the system keeps what a killed program wrote: whether what was
// acknowledged is on the disk. A writer is run under strace, and its calls are played onto a shadow of
// the ledger's files that takes over a write only when the file is synced. At every acknowledgement
// the shadow is what a power cut would leave at worst; the fact has to be in it.

const home = mkdtempSync(join(tmpdir(), 'reelreckon-power-'))
afterAll(() => rmSync(home, { recursive: true }))
const program = fileURLToPath(new URL('./append-forever.ts', import.meta.url))

const tried = spawnSync('strace', ['-f', '-o', '/dev/null', 'true'])
const mayTrace = tried.status === 0
if (!mayTrace)
  console.warn('No strace that may trace is here: the tests of power cuts are skipped.')

const trace = (args: readonly string[], words: readonly string[]): string => {
  const log = join(home, 'log')
  const { status, stderr } = spawnSync(
    'strace',
    ['-f', '-y', '-xx', '-s', '200000', '-o', log, '-e', `trace=${calls}`, ...words, ...args],
    { encoding: 'utf8' },
  )
  if (status !== 0) throw new Error(stderr)
  return readFileSync(log, 'latin1')
}
const calls = 'pwrite64,write,fsync,fdatasync,ftruncate,link,linkat,rename,unlink'

/** One call of the log. */
interface Call {
  readonly name: string
  /** Path of the file it is on. */
  readonly path: string
  readonly bytes: Buffer
  readonly rest: string
}

const bytesOf = (quoted: string): Buffer => Buffer.from(quoted.replaceAll('\\x', ''), 'hex')

/** The lines of a log, each of a whole call: one that another thread broke off stands where it ended. */
const wholeLines = (log: string): string[] => {
  const begun = new Map<string, string>()
  return log.split('\n').flatMap((line) => {
    const [, thread = '', start] = /^(\d+) +(.*) <unfinished \.\.\.>$/.exec(line) ?? []
    if (start !== undefined) {
      begun.set(thread, start)
      return []
    }
    const [, resumed = '', end] = /^(\d+) +<\.\.\. \w+ resumed>(.*)$/.exec(line) ?? []
    return [end === undefined ? line : `${resumed} ${begun.get(resumed) ?? ''}${end}`]
  })
}

const callsOf = (log: string): Call[] =>
  wholeLines(log).flatMap((line) => {
    const found =
      /^\d+ +(\w+)\(\d+<((?:\\x[0-9a-f]{2}|[^>])*)>(?:, "((?:\\x[0-9a-f]{2})*)")?(.*)$/.exec(line)
    if (found === null) return []
    const [, name = '', path = '', quoted = '', rest = ''] = found
    const plain = path.includes('\\x') ? bytesOf(path).toString() : path
    return [{ name, path: plain, bytes: bytesOf(quoted), rest }]
  })

/** The files of a ledger as a power cut would leave them. */
class Shadow {
  readonly #folder: string
  readonly #files = new Map<string, Buffer>()
  readonly #waiting = new Map<string, { at: number; bytes: Buffer }[]>()

  constructor(folder: string) {
    this.#folder = folder
    const name = 'ledger.sqlite'
    this.#files.set(name, readFileSync(join(folder, name)))
  }

  take({ name, path, bytes, rest }: Call): void {
    const file = basename(path)
    if (!path.startsWith(this.#folder) || file.endsWith('-shm')) return
    if (name === 'pwrite64') {
      const at = Number(/, \d+, (\d+)\)/.exec(rest)![1])
      this.#waiting.set(file, [...(this.#waiting.get(file) ?? []), { at, bytes }])
    } else if (name === 'fsync' || name === 'fdatasync') {
      for (const write of this.#waiting.get(file) ?? []) this.#put(file, write)
      this.#waiting.delete(file)
    }
  }

  #put(file: string, { at, bytes }: { readonly at: number; readonly bytes: Buffer }): void {
    const before = this.#files.get(file) ?? Buffer.alloc(0)
    const after = Buffer.alloc(Math.max(before.length, at + bytes.length))
    before.copy(after)
    bytes.copy(after, at)
    this.#files.set(file, after)
  }

  /** Ids of the facts that would be there after a power cut now. */
  facts(): Set<string> {
    const folder = mkdtempSync(join(home, 'shadow-'))
    for (const [file, bytes] of this.#files) writeFileSync(join(folder, file), bytes)
    const raw = new SqliteDatabase(join(folder, 'ledger.sqlite'))
    try {
      expect(raw.pragma('integrity_check', { simple: true })).toBe('ok')
      return new Set(raw.prepare('select id from fact').pluck().all() as string[])
    } finally {
      raw.close()
      rmSync(folder, { recursive: true })
    }
  }
}

/** Text as the log has it. */
const hex = (text: string): string =>
  [...Buffer.from(text)].map((byte) => `\\x${byte.toString(16).padStart(2, '0')}`).join('')

/** Runs a writer and counts the acknowledged facts a power cut would have taken along. */
const lost = async (words: readonly string[], count = 40): Promise<Record<string, number>> => {
  const folder = mkdtempSync(join(home, 'traced-'))
  const store = valueOf(await openStore(folder))
  valueOf(await store.append([...catalogue, opening()]))
  await store.close()
  const before = join(home, 'before')
  rmSync(before, { recursive: true, force: true })
  mkdirSync(before)
  cpSync(folder, before, { recursive: true })
  const log = trace([process.execPath, ...words, program, folder, reel, scale, String(count)], [])
  for (const name of ['ledger.sqlite']) cpSync(join(before, name), join(folder, name))
  const shadow = new Shadow(folder)
  let acknowledged = 0
  let gone = 0
  for (const call of callsOf(log)) {
    const said = call.name === 'write' ? call.bytes.toString() : ''
    if (/^[2-9A-Z]{9}\n$/.test(said)) {
      acknowledged++
      if (!shadow.facts().has(said.trim())) gone++
    } else shadow.take(call)
  }
  return { acknowledged, gone }
}

describe.skipIf(!mayTrace)('a power cut', () => {
  test('takes no acknowledged fact along', async () => {
    expect(await lost([])).toEqual({ acknowledged: 40, gone: 0 })
  })

  test('would be noticed: with synchronous=NORMAL facts are gone', async () => {
    const careless = join(home, 'careless.cjs')
    // Every PRAGMA of the store goes by this; the one that matters is turned round.
    writeFileSync(
      careless,
      `const sqlite = require(${JSON.stringify(fileURLToPath(import.meta.resolve('better-sqlite3')))})
       const { pragma } = sqlite.prototype
       sqlite.prototype.pragma = function (text, how) {
         return pragma.call(this, text.replace('synchronous = full', 'synchronous = normal'), how)
       }`,
    )
    const { acknowledged, gone } = await lost(['--require', careless])
    expect(acknowledged).toBe(40)
    expect(gone).toBeGreaterThan(30)
  })

  test('leaves a ledger just begun where it is: its name is synced before it is used', () => {
    const folder = join(home, 'begun')
    const code = `import { openStore } from ${JSON.stringify(new URL('../../src/store/index.ts', import.meta.url).href)}
      const { value } = await openStore(${JSON.stringify(folder)}); await value.close()`
    const log = trace([process.execPath, '--input-type=module', '-e', code], [])
    const lines = log.split('\n')
    const linked = lines.findIndex(
      (line) => /\blink(at)?\(/.test(line) && line.includes(`${hex('ledger.sqlite')}"`),
    )
    const syncs = (path: string, from: number): boolean =>
      callsOf(lines.slice(from).join('\n')).some(
        (call) => call.name === 'fsync' && call.path === path,
      )
    expect(linked).toBeGreaterThan(0)
    expect(syncs(folder, linked)).toBe(true)
    expect(syncs(home, 0)).toBe(true)
    expect(syncs(folder, lines.length)).toBe(false)
  })
})
