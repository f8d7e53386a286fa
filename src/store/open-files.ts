import { stat } from 'node:fs/promises'

/**
 * Ledgers this process has open, by device and inode. On POSIX a process that closes any descriptor of
 * a file loses all its locks on it, SQLite's too: a ledger that is open must not be read beside SQLite.
 *
 * @see https://www.sqlite.org/howtocorrupt.html section 2.2
 */
const open = new Map<string, number>()

/** What tells one file from another, whatever its name; undefined where there is none. */
export const fileIdentity = async (path: string): Promise<string | undefined> => {
  try {
    const { dev, ino } = await stat(path, { bigint: true })
    return `${dev}:${ino}`
  } catch {
    return undefined
  }
}

export const isOpenHere = (identity: string): boolean => open.has(identity)

/** Counts a file as open until the function returned is called. */
export const noteOpen = (identity: string): (() => void) => {
  open.set(identity, (open.get(identity) ?? 0) + 1)
  let noted = true
  return () => {
    if (!noted) return
    noted = false
    const left = open.get(identity)! - 1
    if (left === 0) open.delete(identity)
    else open.set(identity, left)
  }
}
