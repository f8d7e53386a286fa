import { randomBytes } from 'node:crypto'
import { link, mkdir, rename, rm, rmdir, stat } from 'node:fs/promises'
import { dirname } from 'node:path'
import { codeOf } from './code-of.ts'
import { patiently } from './patiently.ts'
import { syncFolder } from './sync-folder.ts'

/** A name beside a file that nobody else takes. */
export const draftName = (file: string): string =>
  `${file}.new-${process.pid}-${randomBytes(4).toString('hex')}`

/** Codes of a file system that has no hard links. */
const noLinks = new Set(['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EINVAL'])

/**
 * Gives a draft its name, in one step and only if nobody has it; the name is on the disk after that.
 *
 * @param makeLink - of `node:fs/promises`; a test's way to a file system without hard links
 * @returns false where something has that name already
 */
export const placeNew = async (
  draft: string,
  file: string,
  makeLink: (from: string, to: string) => Promise<void> = link,
): Promise<boolean> => {
  try {
    await makeLink(draft, file)
    await rm(draft)
  } catch (error) {
    if (isExisting(error)) return false
    if (!noLinks.has(codeOf(error) ?? '')) throw error
    if (!(await renameToNew(draft, file))) return false
  }
  await syncFolder(dirname(file))
  return true
}

/** Without hard links: a folder is the lock, which only one can make. */
const renameToNew = async (draft: string, file: string): Promise<boolean> => {
  const lock = `${file}.placing`
  // Held for microseconds: one that stays for two seconds was left by a process that was killed.
  await patiently(() => mkdir(lock), isExisting, 2000).catch((error: unknown) => {
    if (!isExisting(error)) throw error
  })
  try {
    if (await exists(file)) return false
    await rename(draft, file)
    return true
  } finally {
    await rmdir(lock)
  }
}

const isExisting = (error: unknown): boolean => codeOf(error) === 'EEXIST'

export const exists = async (path: string): Promise<boolean> => {
  try {
    await stat(path)
    return true
  } catch {
    return false
  }
}
