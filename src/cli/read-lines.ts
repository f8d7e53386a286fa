import { createReadStream } from 'node:fs'
import { stat } from 'node:fs/promises'
import { exitCode, Fault } from './fault.ts'
import { Progress } from './progress.ts'
import { faultOfFile } from './read-input.ts'

/**
 * The lines of a text file or, for `-`, of standard input, in batches as they are read.
 *
 * @throws Fault: unreadable input, or cancelled
 */
export async function* readLines(
  file: string,
  signal: AbortSignal,
): AsyncGenerator<readonly string[], void> {
  const progress = new Progress(process.stderr)
  try {
    const total = file === '-' ? 0 : (await stat(file)).size
    const source = file === '-' ? process.stdin : createReadStream(file)
    const decoder = new TextDecoder()
    let bytes = 0
    let rest = ''
    for await (const slice of source) {
      stopIfCancelled(signal, file)
      const chunk = slice as Uint8Array
      bytes += chunk.length
      progress.at(bytes, total, file)
      const lines = (rest + decoder.decode(chunk, { stream: true })).split('\n')
      rest = lines.pop() ?? ''
      yield lines
    }
    rest += decoder.decode()
    if (rest !== '') yield [rest]
  } catch (error) {
    throw faultOfFile(error, file)
  } finally {
    progress.end()
  }
}

/** @throws Fault once the person has cancelled */
export const stopIfCancelled = (signal: AbortSignal, file: string | null): void => {
  if (!signal.aborted) return
  throw new Fault(exitCode.cancelled, {
    code: 'cancelled',
    message: 'Cancelled. Nothing was changed.',
    file,
  })
}
