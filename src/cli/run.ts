import type { ErrorJson } from '../contract/index.ts'
import { exitCode, Fault } from './fault.ts'
import { harmless, shown, type Terminal, terminalOf } from './terminal.ts'
import { wrap } from './wrap.ts'

/** What a command leaves behind. */
export interface Result {
  readonly text: string
  readonly exit: number
}

/**
 * Runs a command, writes what it has to say, and sets the exit code.
 *
 * An answer goes to standard output, and a fault to standard error; with `--json` a fault goes to
 * standard output as well, as data.
 */
export const run = async (
  json: boolean,
  command: (terminal: Terminal) => Promise<Result>,
): Promise<void> => {
  const terminal = terminalOf(process.stdout.isTTY, process.env, process.platform)
  try {
    const { text, exit } = await command(terminal)
    process.stdout.write(json ? text : shown(terminal, text))
    process.exitCode = exit
  } catch (error) {
    if (!(error instanceof Fault)) throw error
    tellFault(error, json)
  }
}

/** Says why there is no answer. */
export const tellFault = ({ exit, error }: Fault, json: boolean): void => {
  if (json) process.stdout.write(`${JSON.stringify({ error } satisfies ErrorJson, null, 2)}\n`)
  const screen = terminalOf(process.stderr.isTTY, process.env, process.platform)
  const about = error.file === null ? '' : `${harmless(error.file)}: `
  const place = error.line === null || error.line === 0 ? '' : `line ${error.line}: `
  const [first = '', ...more] = `${about}${place}${error.message}`.split('\n')
  const rest = more.map((line) => wrap(harmless(line), '  ', '    '))
  const hint =
    exit === exitCode.usage ? ['See reelreckon --help, or --help after the command.'] : []
  const lines = [wrap(harmless(first), '', ''), ...rest, ...hint]
  process.stderr.write(`${shown(screen, lines.join('\n'))}\n`)
  process.exitCode = exit
}
