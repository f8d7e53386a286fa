import { randomUUID } from 'node:crypto'
import { Writable } from 'node:stream'
import { fileURLToPath } from 'node:url'
import type { CliAsked, CliRun } from './run-cli.ts'

// Runs the built command time and again in one process, as a pipe that nobody types into has it: to start Node
// and load the command takes longer than most commands. Each is asked for by a message, and answered by one.

const main = new URL('../../dist/bundle/main.js', import.meta.url)

/** Standard output or standard error, for one run. */
class Heard extends Writable {
  readonly #parts: Buffer[] = []

  override _write(part: Buffer, _encoding: string, done: () => void): void {
    this.#parts.push(part)
    done()
  }

  text(): string {
    return Buffer.concat(this.#parts).toString('utf8')
  }
}

const exitNow = (): number => Number(process.exitCode ?? 0)

const run = async ({ words, cwd, data }: CliAsked): Promise<CliRun> => {
  const [out, err] = [new Heard(), new Heard()]
  Object.defineProperties(process, {
    stdout: { configurable: true, value: out },
    stderr: { configurable: true, value: err },
  })
  process.argv = [process.execPath, fileURLToPath(main), ...words]
  process.env['REELRECKON_DATA'] = data
  process.chdir(cwd)
  process.exitCode = 0
  // A module is run once for each address it is asked for by; what it loads stays loaded.
  await import(`${main.href}?run=${randomUUID()}`)
  return { exit: exitNow(), out: out.text(), err: err.text() }
}

process.on('message', (asked: CliAsked) => {
  const answer = async (): Promise<void> => {
    process.send?.(await run(asked))
  }
  answer().catch((error: unknown) => {
    const err = error instanceof Error ? (error.stack ?? error.message) : String(error)
    process.send?.({ exit: 1, out: '', err })
  })
})
