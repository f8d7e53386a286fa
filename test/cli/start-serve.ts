import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'

const main = fileURLToPath(new URL('../../dist/bundle/main.js', import.meta.url))

/** The built `reelreckon serve`, listening. */
export interface RunningServe {
  readonly port: number
  /** What it said when it began. */
  readonly said: string
  /** Ends it. @returns its exit code */
  readonly end: (signal?: NodeJS.Signals) => Promise<number | null>
}

/** Starts the built command on a free port, unless told. @param words - after `serve` */
export const startServe = async (
  words: readonly string[],
  data: string,
  more: Readonly<Record<string, string>> = {},
): Promise<RunningServe> => {
  const { PATH = '', HOME = '' } = process.env
  const env = { PATH, HOME, LC_ALL: 'C.UTF-8', REELRECKON_DATA: data, ...more }
  const port = words.includes('--port') ? [] : ['--port', '0']
  const child = spawn(process.execPath, [main, 'serve', ...port, ...words], { env })
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve))
  let said = ''
  let complaint = ''
  child.stderr.on('data', (part) => (complaint += String(part)))
  await new Promise<void>((resolve, reject) => {
    child.stdout.on('data', (part) => {
      said += String(part)
      if (said.includes('\n')) resolve()
    })
    child.once('exit', () => reject(new Error(complaint)))
  })
  const end = (signal: NodeJS.Signals = 'SIGTERM'): Promise<number | null> => {
    child.kill(signal)
    return ended
  }
  return { port: Number(/:(\d+)\//.exec(said)?.[1]), said, end }
}
