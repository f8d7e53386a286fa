import { spawnSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads'
import { harbourLedgerText } from '../../demo/ledger/harbour.ts'
import { demoPrints } from '../../demo/prints/index.ts'

/** What the command left behind. */
export interface CliRun {
  readonly exit: number | null
  readonly out: string
  readonly err: string
}

/** What the package names as its command. */
const main = fileURLToPath(new URL('../../dist/bundle/main.js', import.meta.url))

/** Where no ledger is, unless a test begins one: nobody's own is touched. */
const noLedger = join(mkdtempSync(join(tmpdir(), 'reelreckon-none-')), 'none')

/** What a command that takes no input is asked for by. */
export interface CliAsked {
  readonly words: readonly string[]
  readonly cwd: string
  /** Folder of the ledger. */
  readonly data: string
}

interface Host {
  readonly port: MessagePort
  readonly answered: Int32Array<SharedArrayBuffer>
}

let host: Host | undefined

const beginHost = (): Host => {
  const { port1: port, port2 } = new MessageChannel()
  const answered = new Int32Array(new SharedArrayBuffer(4))
  const bridge = new Worker(new URL('./command-bridge.ts', import.meta.url), {
    workerData: { port: port2, answered, env: environment() },
    transferList: [port2],
    execArgv: [],
  })
  bridge.unref()
  port.unref()
  return { port, answered }
}

/** Longer than any command of a test takes, ms. */
const patience = 120_000

const askHost = (asked: CliAsked): CliRun => {
  host ??= beginHost()
  const { port, answered } = host
  Atomics.store(answered, 0, 0)
  port.postMessage(asked)
  const isLate = Atomics.wait(answered, 0, 0, patience) === 'timed-out'
  const told: { readonly message: CliRun } | undefined = receiveMessageOnPort(port)
  // One that ended, or answers when nobody waits any more, is asked nothing else.
  if (isLate || told === undefined || told.message.exit === null) host = undefined
  if (told === undefined) throw new Error(`No answer: ${asked.words.join(' ')}`)
  return told.message
}

const environment = (): Readonly<Record<string, string>> => {
  const { PATH = '', HOME = '' } = process.env
  return { PATH, HOME, LC_ALL: 'C.UTF-8' }
}

/** These stay until they are ended, or talk. */
const ofItsOwn: ReadonlySet<string> = new Set(['serve', 'watch'])

/**
 * Runs the built command, in a pipe, with UTF-8: one after the other in a process beside the tests; in a process of
 * its own where it is given input or an environment.
 */
export const runCli = (
  words: readonly string[],
  more: {
    readonly cwd?: string
    readonly input?: Uint8Array | string
    readonly env?: Readonly<Record<string, string>>
  } = {},
): CliRun => {
  const { REELRECKON_DATA: data = noLedger, ...others } = more.env ?? {}
  const { cwd = process.cwd(), input } = more
  if (
    input === undefined &&
    Object.keys(others).length === 0 &&
    !words.includes('-') &&
    !ofItsOwn.has(words[0] ?? '')
  ) {
    return askHost({ words, cwd, data })
  }
  const { status, stdout, stderr } = spawnSync(process.execPath, [main, ...words], {
    cwd,
    input: input ?? '',
    env: { ...environment(), REELRECKON_DATA: data, ...others },
    encoding: 'utf8',
    maxBuffer: 64 * 2 ** 20,
  })
  return { exit: status, out: stdout, err: stderr }
}

/** A new folder with the demo prints and the bench's ledger in it; the system clears it away. */
export const folderOfPrints = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'reelreckon-test-'))
  for (const { fileName, write } of demoPrints) writeFileSync(join(folder, fileName), write())
  writeFileSync(join(folder, 'marrowick.ndjson'), harbourLedgerText())
  return folder
}
