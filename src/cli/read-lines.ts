import { createReadStream } from 'node:fs'
import { stat } from 'node:fs/promises'
import { pipeline, Readable } from 'node:stream'
import { exitCode, Fault, refusedFile } from './fault.ts'
import { Progress } from './progress.ts'
import { faultOfFile } from './read-input.ts'

/** No line of a ledger or of a table comes near this many characters; beyond it, it is another file. */
const longestLine = 64 * 1024 * 1024

/**
 * The lines of a text file, gzip or not, or for `-` of standard input, in batches as they are read.
 *
 * @param longest - characters of a line
 * @throws Fault: unreadable input, a backup, bytes that are not UTF-8, a line that is too long, or cancelled
 */
export async function* readLines(
  file: string,
  signal: AbortSignal,
  longest: number = longestLine,
): AsyncGenerator<readonly string[], void> {
  const progress = new Progress(process.stderr)
  try {
    const total = file === '-' ? 0 : (await stat(file)).size
    const source = file === '-' ? process.stdin : createReadStream(file)
    let bytes = 0
    const packed = async function* (): AsyncGenerator<Uint8Array, void> {
      for await (const slice of source) {
        stopIfCancelled(signal, file)
        bytes += (slice as Uint8Array).length
        progress.at(bytes, total, file)
        yield slice as Uint8Array
      }
    }
    const decoder = new TextDecoder('utf-8', { fatal: true })
    const splitter = new Splitter(file, longest)
    let isFirst = true
    for await (const chunk of unpacked(file, packed())) {
      stopIfCancelled(signal, file)
      if (isFirst) refuseBackup(file, chunk)
      isFirst = false
      const lines = splitter.take(decoded(file, () => decoder.decode(chunk, { stream: true })))
      if (lines.length > 0) yield lines
    }
    splitter.take(decoded(file, () => decoder.decode()))
    const last = splitter.end()
    if (last !== '') yield [last]
  } catch (error) {
    throw faultOfFile(error, file)
  } finally {
    progress.end()
  }
}

/** The bytes, out of gzip where they begin as that. @throws Fault where it is damaged */
async function* unpacked(
  file: string,
  packed: AsyncGenerator<Uint8Array, void>,
): AsyncGenerator<Uint8Array, void> {
  const { value: first } = await packed.next()
  if (first === undefined) return
  const all = async function* (): AsyncGenerator<Uint8Array, void> {
    yield first
    yield* packed
  }
  if (first[0] !== 0x1f || first[1] !== 0x8b) {
    yield* all()
    return
  }
  const { createGunzip } = await import('node:zlib')
  const gunzip = createGunzip()
  // What fails at either end comes out of the loop below.
  pipeline(Readable.from(all()), gunzip, () => {})
  try {
    for await (const slice of gunzip) yield slice as Uint8Array
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && String(error.code).startsWith('Z_')))
      throw error
    throw refusedFile(file, {
      code: 'gzip_damaged',
      message: 'This gzip file is damaged, or cut short. Export and pack it again.',
    })
  }
}

/** @throws Fault for a file that begins as one of SQLite */
const refuseBackup = (file: string, { buffer, byteOffset, length }: Uint8Array): void => {
  const begins = Buffer.from(buffer, byteOffset, Math.min(length, 15)).toString('latin1')
  if (begins !== 'SQLite format 3') return
  throw refusedFile(file, {
    code: 'backup_not_lines',
    message:
      'This file is a backup, or a ledger itself, and no lines of one. reelreckon restore puts it in the place of the ledger; to take over what is in it, restore it into another folder with --data and take the export of that.',
  })
}

/** Lines out of text that comes in pieces. Each piece is searched once, however long the line. */
class Splitter {
  readonly #file: string
  readonly #longest: number
  /** Of the line that has not ended yet. */
  #pieces: string[] = []
  #length = 0
  #line = 1

  constructor(file: string, longest: number) {
    this.#file = file
    this.#longest = longest
  }

  take(text: string): readonly string[] {
    const [first = '', ...more] = text.split('\n')
    this.#add(first)
    if (more.length === 0) return []
    const rest = more.pop() ?? ''
    const lines = [this.end(), ...more]
    this.#line += lines.length
    this.#add(rest)
    return lines
  }

  end(): string {
    const line = this.#pieces.join('')
    this.#pieces = []
    this.#length = 0
    return line
  }

  #add(piece: string): void {
    this.#pieces.push(piece)
    this.#length += piece.length
    if (this.#length <= this.#longest) return
    throw refusedFile(this.#file, {
      code: 'line_too_long',
      message: `This line has more than ${this.#longest} characters, which no ledger and no table needs. Is it the right file?`,
      line: this.#line,
    })
  }
}

const decoded = (file: string, decode: () => string): string => {
  try {
    return decode()
  } catch (error) {
    if (!(error instanceof TypeError)) throw error
    throw refusedFile(file, {
      code: 'not_utf8',
      message: 'This file is not text in UTF-8. Save it as UTF-8 and try again.',
    })
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
