import { createWriteStream } from 'node:fs'
import { access, link, open, rename, rm } from 'node:fs/promises'
import { pipeline } from 'node:stream/promises'
import { exitCode, Fault, usageFault } from './fault.ts'

/**
 * Writes a file so that nobody ever sees half of it: under another name, onto the disk, then renamed.
 *
 * @param overwrite - take the place of a file that is there
 * @throws Fault: `target_exists`, cancelled, or exit code 4 where it can not be written
 */
export const writeWhole = async (
  file: string,
  lines: AsyncIterable<string> | Iterable<string | Uint8Array>,
  overwrite: boolean,
  signal: AbortSignal,
): Promise<void> => {
  if (!overwrite && (await isThere(file))) throw targetExists(file)
  const draft = `${file}.${process.pid}.part`
  try {
    await pipeline(lines, createWriteStream(draft, { flags: 'wx' }), { signal })
    const handle = await open(draft, 'r+')
    await handle.sync()
    await handle.close()
    if (overwrite) await rename(draft, file)
    else await link(draft, file)
  } catch (error) {
    throw faultOfWriting(error, file, signal)
  } finally {
    await rm(draft, { force: true })
  }
}

export const isThere = (file: string): Promise<boolean> =>
  access(file).then(
    () => true,
    () => false,
  )

/** A file that is there stays as it is unless it is asked otherwise. */
export const targetExists = (file: string): Fault =>
  usageFault(
    'target_exists',
    `${file} is there already and was left as it is. Name another, or say --overwrite.`,
    '--overwrite',
  )

/** What kept a file from being written, as a fault. */
export const faultOfWriting = (error: unknown, file: string, signal: AbortSignal): unknown => {
  if (error instanceof Fault) return error
  if (signal.aborted) {
    return new Fault(exitCode.cancelled, {
      code: 'cancelled',
      message: 'Cancelled. Nothing was changed.',
    })
  }
  if (!(error instanceof Error) || !('code' in error) || !('syscall' in error)) return error
  if (error.code === 'EEXIST') return targetExists(file)
  return new Fault(exitCode.ledger, {
    code: 'not_written',
    message: `It can not be written (${String(error.code)}). Check the folder, your permissions, and whether the disk is full.`,
    file,
  })
}
