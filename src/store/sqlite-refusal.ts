import type { Refusal } from '../units/index.ts'
import { codeOf } from './code-of.ts'
import { damaged } from './damaged.ts'

/**
 * What an error of SQLite, or of the file system, means for a ledger.
 *
 * @param file - as it stands in the sentence
 * @see https://www.sqlite.org/rescode.html
 */
export const sqliteRefusal = (error: unknown, file: string): Refusal | undefined => {
  const code = codeOf(error)
  if (code === undefined) return undefined
  if (/^SQLITE_(BUSY|LOCKED)/.test(code)) return busy(file)
  // A log's index that can not grow is reported by a code of its own, whatever the reason.
  if (/^(SQLITE_FULL|SQLITE_IOERR_SHMSIZE|ENOSPC|EDQUOT)/.test(code)) return diskFull(file)
  if (/^(SQLITE_READONLY|EROFS|EACCES|EPERM)/.test(code)) return readOnly(file)
  if (/^(SQLITE_CORRUPT|SQLITE_NOTADB)/.test(code)) {
    return damaged(file, `SQLite says: ${(error as Error).message}`)
  }
  if (/^SQLITE_(IOERR|CANTOPEN)|^EIO$/.test(code)) {
    return {
      code: 'disk_failed',
      message: `${file} can not be read or written (${code}). Look after the disk and the folder; what was acknowledged before is kept.`,
      received: code,
    }
  }
  return undefined
}

const busy = (file: string): Refusal => ({
  code: 'busy',
  message: `${file} is being written by another program and did not come free in time. Nothing was written; try again.`,
})

const diskFull = (file: string): Refusal => ({
  code: 'disk_full',
  message: `There is no room left on the disk for ${file}. Nothing of this was written, and what was written before is kept; make room and try again.`,
})

export const readOnly = (file: string): Refusal => ({
  code: 'read_only',
  message: `${file} can be read but not written: the file or its folder is write-protected. Nothing was written; change its permissions or use another folder.`,
})
