import { open, stat } from 'node:fs/promises'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { damaged } from './damaged.ts'
import { fileIdentity, isOpenHere } from './open-files.ts'
import { applicationId } from './sqlite-connection.ts'

/** First bytes of every SQLite file. */
const magic = 'SQLite format 3\0'

/**
 * Looks at a file before SQLite does, and leaves it as it is.
 *
 * @returns how many bytes it has and what tells it from other files, or `no_ledger`, `not_a_ledger`,
 *   `damaged`
 * @see https://www.sqlite.org/fileformat.html section 1.3, the header
 */
export const examineLedger = async (
  file: string,
): Promise<Outcome<{ readonly bytes: number; readonly identity: string }>> => {
  const identity = await fileIdentity(file)
  if (identity === undefined) return refuse(noLedger(file))
  const stats = await stat(file)
  if (stats.isDirectory()) return notALedger(file, 'it is a folder')
  if (!stats.isFile()) return notALedger(file, 'it is no ordinary file')
  const found = accept({ bytes: stats.size, identity })
  if (isOpenHere(identity)) return found
  if (stats.size === 0) return notALedger(file, 'it is empty')

  const header = await firstBytes(file)
  const isMarked = header.length === 100 && header.readUInt32BE(68) === applicationId
  if (header.toString('latin1', 0, 16) !== magic) {
    if (isMarked) return refuse(damaged(file, 'its first bytes are not what they were'))
    return notALedger(file, 'it does not begin as a ledger does')
  }
  if (!isMarked) return notALedger(file, 'another program wrote it')
  const page = pageSize(header)
  if (page === undefined) return refuse(damaged(file, 'its header is not what it was'))
  const [pages, logBytes] = [header.readUInt32BE(28), await sizeOf(`${file}-wal`)]
  // With a log beside it the header may be ahead of the file. Whoever has it open may be writing the log
  // into the file: header, log and size are looked at in the order in which they are caught up with.
  const { size } = await stat(file)
  if (logBytes === 0 && pages * page > size) {
    return refuse(damaged(file, `it has ${size} bytes, and its header says ${pages * page}`))
  }
  return found
}

/** Up to 100 bytes: as many as a header has. */
export const firstBytes = async (file: string): Promise<Buffer> => {
  const handle = await open(file, 'r')
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(100), 0, 100, 0)
    return buffer.subarray(0, bytesRead)
  } finally {
    await handle.close()
  }
}

/** Bytes in a page, undefined for a size no file can have. */
const pageSize = (header: Buffer): number | undefined => {
  const word = header.readUInt16BE(16)
  const bytes = word === 1 ? 65_536 : word
  return bytes >= 512 && (bytes & (bytes - 1)) === 0 ? bytes : undefined
}

const sizeOf = async (path: string): Promise<number> => {
  try {
    return (await stat(path)).size
  } catch {
    return 0
  }
}

export const noLedger = (file: string): Refusal => ({
  code: 'no_ledger',
  message: `There is no ledger at ${file}. Name another folder, or begin one there.`,
  received: file,
})

/** @param why - a half sentence */
export const notALedger = (file: string, why: string): Outcome<never> =>
  refuse({
    code: 'not_a_ledger',
    message: `${file} is no ledger of Reelreckon: ${why}. It was left as it is. Name another folder, or move it away; if it was a ledger once, restore a backup.`,
    received: file,
  })
