import { readFile } from 'node:fs/promises'
import { isAbsolute, join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { readAccess, writeAccess } from './access-file.ts'
import { exitCode, Fault, usageFault } from './fault.ts'
import { ledgerFolder } from './ledger-folder.ts'
import { openAddresses } from './open-addresses.ts'
import { openInBrowser } from './open-in-browser.ts'
import { answered } from './open-ledger.ts'
import { isLoopback, ownHosts } from './own-hosts.ts'
import { isPassPhrase, keepPassPhrase, phraseMark, shortestPassPhrase } from './pass-phrase.ts'
import { run } from './run.ts'
import { runMatch } from './run-match.ts'
import { pausedCopyOfUpload } from './served-copy.ts'
import { type OwnLedger, servedLedger } from './served-ledger.ts'
import { pictureOfUpload } from './served-picture.ts'
import { readingOfUpload } from './served-reading.ts'

/** What was typed after `serve`. */
interface ServeText {
  readonly port?: string
  readonly host?: string
  readonly name?: readonly string[]
  readonly data?: string
  readonly demo?: boolean
  readonly open?: boolean
  readonly newPassPhrase?: boolean
}

const usualPort = 4173
/** How soon others' writes are told, ms. */
const pollEvery = 1000

const built = (path: string): string => fileURLToPath(new URL(path, import.meta.url))

/** `reelreckon serve`: the app and its API, until it is told to end. */
export const serveCommand = (typed: ServeText): Promise<void> =>
  run(false, async () => {
    const port = parsePort(typed.port)
    const { host = '127.0.0.1', name: names = [], demo: isDemo = false } = typed
    if (isDemo && typed.data !== undefined) {
      throw usageFault(
        'demo_with_data',
        '--demo has a shelf of its own: leave --data out.',
        '--demo',
      )
    }
    const kept = await ledgerFolder(typed.data)
    if (typed.newPassPhrase === true) return setPassPhrase(kept)
    const isNeeded = !isLoopback(host) || names.length > 0
    const access = await readAccess(kept)
    if (isNeeded && access.passPhrase === undefined) {
      throw usageFault(
        'pass_phrase_needed',
        `Others could reach this server, so it needs a pass-phrase. Set one up once: reelreckon serve --new-pass-phrase`,
        typed.host === undefined ? '--name' : '--host',
      )
    }
    const ledger = answered(await servedLedger(kept, isDemo))
    try {
      const isOpened = typed.open === true
      await serveUntilTold(ledger, { host, port, names, isOpened, isNeeded, folder: kept })
    } finally {
      await ledger.close()
    }
    return { text: '', exit: 0 }
  })

interface Choice {
  readonly host: string
  readonly port: number
  readonly names: readonly string[]
  /** In the browser of this machine. */
  readonly isOpened: boolean
  readonly isNeeded: boolean
  /** Of the pass-phrase. */
  readonly folder: string
}

const serveUntilTold = async (
  ledger: OwnLedger,
  { host, port, names, isOpened, isNeeded, folder }: Choice,
): Promise<void> => {
  const { listen, makeApp, remoteAddress } = await import('../http/index.ts')
  const app = makeApp({
    ledger,
    pollEvery,
    now: Date.now,
    hosts: ownHosts(host, names),
    file: fileOfApp,
    remoteOf: remoteAddress,
    pausedCopy: pausedCopyOfUpload,
    reading: readingOfUpload,
    picture: pictureOfUpload,
    match: runMatch,
    access: {
      isNeeded,
      checkPhrase: async (typed) => {
        const { passPhrase } = await readAccess(folder)
        return passPhrase !== undefined && isPassPhrase(typed, passPhrase)
      },
      phraseMark: async () => phraseMark((await readAccess(folder)).passPhrase),
      tokens: async () => (await readAccess(folder)).tokens,
      keepTokens: async (tokens) => writeAccess(folder, { ...(await readAccess(folder)), tokens }),
    },
  })
  const listening = await listen(app, { host, port })
  if (!listening.ok) {
    const { code, message } = listening.refusal
    throw new Fault(exitCode.usage, { code, message })
  }
  const addresses = openAddresses(host, listening.value.port)
  process.stdout.write(greeting(addresses, { isDemo: ledger.isDemo(), isHeard: !isLoopback(host) }))
  if (isOpened) openInBrowser(addresses[0]!)
  await new Promise<void>((resolve) => {
    process.once('SIGINT', resolve)
    process.once('SIGTERM', resolve)
  })
  await listening.value.close()
}

/** @param isHeard - others on the network reach it, without https */
const greeting = (
  [first, ...others]: readonly string[],
  { isDemo, isHeard }: { readonly isDemo: boolean; readonly isHeard: boolean },
): string => {
  const demo = isDemo ? ' with the demo shelf, which is gone when it ends' : ''
  const elsewhere = others.length > 0 ? `From elsewhere: ${others.join('  ')}\n` : ''
  const plain = isHeard
    ? 'Over plain http others on the network can listen, and the app opens without its server only on https or on this machine.\n'
    : ''
  return `Reelreckon is at ${first}${demo}. Ctrl-C ends it.\n${elsewhere}${plain}`
}

const parsePort = (typed: string | undefined): number => {
  if (typed === undefined) return usualPort
  const port = /^\d{1,5}$/.test(typed) ? Number(typed) : Number.NaN
  if (port <= 65_535) return port
  throw usageFault(
    'port_malformed',
    `--port: "${typed}" is no port. Give a number up to 65535; 0 takes one that is free.`,
    '--port',
  )
}

/** A file of the built app; nothing outside its folder. */
const fileOfApp = async (path: string): Promise<Uint8Array<ArrayBuffer> | undefined> => {
  const folder = built('../app')
  const file = join(folder, path)
  const within = relative(folder, file)
  if (within.startsWith('..') || isAbsolute(within)) return undefined
  try {
    return new Uint8Array(await readFile(file))
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === 'ENOENT' || code === 'EISDIR' || code === 'ENOTDIR') return undefined
    throw error
  }
}

const setPassPhrase = async (folder: string): Promise<{ text: string; exit: number }> => {
  const typed = await readPassPhrase()
  if (Array.from(typed).length < shortestPassPhrase || typed.length > 1000) {
    throw usageFault(
      'pass_phrase_short',
      `A pass-phrase has ${shortestPassPhrase} characters or more: take four or five words.`,
      '--new-pass-phrase',
    )
  }
  await writeAccess(folder, {
    ...(await readAccess(folder)),
    passPhrase: await keepPassPhrase(typed),
  })
  return { text: '  The pass-phrase is set. A server that runs takes it from now on.\n', exit: 0 }
}

/** The first line of standard input. */
const readPassPhrase = async (): Promise<string> => {
  if (process.stdin.isTTY) process.stdout.write('New pass-phrase (it is shown as you type): ')
  let text = ''
  process.stdin.setEncoding('utf8')
  for await (const part of process.stdin) {
    text += String(part)
    if (text.includes('\n') || text.length > 4096) break
  }
  return text.split(/\r?\n/, 1)[0] ?? ''
}
