import { open } from 'node:fs/promises'
import { type PrintFile, PrintFileReader, type ReadOptions } from '../print/index.ts'
import { exitCode, Fault, refusedFile } from './fault.ts'
import { type FileHash, hashOfFile, hashOfSlices } from './file-hash.ts'
import { PlanningThread } from './planning-thread.ts'
import { Progress } from './progress.ts'
import { readAhead } from './read-ahead.ts'
import { withMadeFor } from './with-made-for.ts'

/** A print file, read. */
export interface Input {
  /** As given; `-` for standard input. */
  readonly file: string
  readonly sha256: string
  readonly bytes: number
  readonly print: PrintFile
}

/** What may be said about a reading. */
export interface ReadingTold {
  /** Told how far it is; the total is 0 where it is not known. A line on a terminal unless given. */
  readonly at?: (bytes: number, total: number) => void
  /** False where every processor is at work already; true unless given. */
  readonly apart?: boolean
}

/** A larger file is hashed, and the time along it planned, in threads of their own, bytes. */
const threadFrom = 16 * 2 ** 20

/**
 * Reads a print file or, for `-`, standard input.
 *
 * @throws Fault: unreadable input, or cancelled by the person
 */
export const readInput = async (
  file: string,
  options: ReadOptions,
  told: ReadingTold = {},
): Promise<Input> => {
  const reading = new Reading(file, options, told)
  try {
    return file === '-' ? await fromStdin(reading) : await fromFile(file, reading)
  } catch (error) {
    throw faultOfFile(error, file)
  } finally {
    await reading.end()
  }
}

/** What both sources do with a slice. */
class Reading {
  reader: PrintFileReader
  bytes = 0
  total = 0
  readonly #file: string
  readonly #options: ReadOptions
  readonly #progress = new Progress(process.stderr)
  readonly #at: NonNullable<ReadingTold['at']>
  readonly apart: boolean
  #planning: PlanningThread | null = null
  #cancelled = false
  readonly #cancel = (): void => {
    this.#cancelled = true
    if (this.#file === '-') process.stdin.destroy()
  }

  constructor(file: string, options: ReadOptions, { at, apart = true }: ReadingTold) {
    this.#file = file
    this.#at = at ?? ((bytes, total) => this.#progress.at(bytes, total, file))
    this.apart = apart
    this.#options = options
    this.reader = new PrintFileReader(options)
    process.on('SIGINT', this.#cancel)
  }

  /** Has the time planned in a thread of its own; before the first slice. */
  planApart(): void {
    if (this.#options.motion === undefined) return
    this.#planning = new PlanningThread()
    this.reader = new PrintFileReader(this.#options, undefined, this.#planning.clockOf)
  }

  /** @returns false when there is no need for more */
  take(slice: Uint8Array, hash: FileHash): boolean {
    this.stopIfCancelled()
    this.bytes += slice.length
    hash.update(slice)
    this.reader.push(slice)
    this.#at(this.bytes, this.total)
    return this.reader.refusal === null
  }

  stopIfCancelled(): void {
    if (this.#cancelled) {
      throw new Fault(exitCode.cancelled, {
        code: 'cancelled',
        message: 'Cancelled.',
        file: this.#file,
      })
    }
  }

  async finish(hash: FileHash): Promise<Input> {
    const outcome = this.reader.finish()
    if (!outcome.ok) throw refusedFile(this.#file, outcome.refusal)
    const sha256 = await hash.digest()
    this.stopIfCancelled()
    const { container, prints } = outcome.value
    const told = prints.map(({ name, reading }) => ({
      name,
      reading: withMadeFor(reading, this.#options),
    }))
    return { file: this.#file, sha256, bytes: this.bytes, print: { container, prints: told } }
  }

  async end(): Promise<void> {
    this.#progress.end()
    process.off('SIGINT', this.#cancel)
    await this.#planning?.end()
  }
}

const fromStdin = async (reading: Reading): Promise<Input> => {
  const hash = hashOfSlices()
  try {
    for await (const slice of process.stdin) {
      if (!reading.take(slice as Uint8Array, hash)) break
    }
  } finally {
    // A stream that was destroyed to cancel ends in an error of its own.
    reading.stopIfCancelled()
  }
  return reading.finish(hash)
}

const fromFile = async (file: string, reading: Reading): Promise<Input> => {
  const handle = await open(file, 'r')
  let hash = hashOfSlices()
  try {
    const before = await handle.stat()
    if (before.isDirectory()) {
      throw new Fault(exitCode.unreadable, {
        code: 'directory',
        message: 'This is a directory. Give the print files in it.',
        file,
      })
    }
    const isFile = before.isFile()
    reading.total = isFile ? before.size : 0
    if (isFile && reading.apart && before.size > threadFrom) {
      hash = hashOfFile(handle.fd)
      reading.planApart()
    }
    await readAhead(handle.fd, isFile, (slice) => reading.take(slice, hash))
    if (reading.reader.refusal === null && isFile) {
      const after = await handle.stat()
      if (
        reading.bytes !== before.size ||
        after.size !== before.size ||
        after.mtimeMs !== before.mtimeMs
      ) {
        throw new Fault(exitCode.unreadable, {
          code: 'file_changed',
          message: 'The file changed while it was read. Wait until it is written, then try again.',
          file,
        })
      }
    }
    return await reading.finish(hash)
  } finally {
    await hash.stop()
    await handle.close()
  }
}

const systemFaults: Readonly<Record<string, readonly [code: string, message: string]>> = {
  ENOENT: ['missing_file', 'There is no such file. Check the name and the folder.'],
  ENOTDIR: ['missing_file', 'There is no such file: a part of the path is no folder.'],
  ENAMETOOLONG: ['missing_file', 'There is no such file: the name is too long.'],
  ELOOP: ['missing_file', 'There is no such file: the links lead in a circle.'],
  EISDIR: ['directory', 'This is a directory. Give the print files in it.'],
  EACCES: ['no_permission', 'You may not read this file. Ask its owner, or copy it.'],
  EPERM: ['no_permission', 'You may not read this file. Ask its owner, or copy it.'],
}

/** A fault of the file system in plain words; anything else as it is. */
export const faultOfFile = (error: unknown, file: string): unknown => {
  if (error instanceof Fault || !(error instanceof Error)) return error
  if ('code' in error && error.code === 'ERR_INVALID_ARG_VALUE') {
    return new Fault(exitCode.unreadable, {
      code: 'missing_file',
      message: 'There is no such file: no name has a NUL in it.',
      file,
    })
  }
  if (!('syscall' in error) || !('code' in error)) return error
  const [code, message] = systemFaults[String(error.code)] ?? [
    'unreadable_file',
    `The file can not be read (${String(error.code)}). Copy it again, or try another drive.`,
  ]
  return new Fault(exitCode.unreadable, { code, message, file })
}
