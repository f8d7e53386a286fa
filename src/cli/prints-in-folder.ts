import type { Dirent } from 'node:fs'
import { opendir, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { byName, isPrintName } from './print-names.ts'

/** More prints than this below one folder are not listed. */
export const mostPrints = 100_000

/** What a folder has in it. */
export interface FolderOfPrints {
  /** Prints, by name; those of a folder before those of the folders in it. */
  readonly files: readonly string[]
  /** Folders that were looked into, the one asked about first. */
  readonly folders: readonly string[]
  /** Folders in it were left alone: not asked for. */
  readonly hasMore: boolean
  /** There are more than were wanted: `files` has as many as that. */
  readonly tooMany: boolean
}

/**
 * Finds the prints in a folder by their names. A link to a file is one; a link to a folder is not
 * followed, so that no way leads in a circle. What vanishes or can not be looked at on the way is
 * left out, but for the folder itself.
 *
 * @param deep - with the folders in it
 * @throws what the file system says of the folder itself
 */
export const printsInFolder = async (
  folder: string,
  deep: boolean,
  most: number = mostPrints,
): Promise<FolderOfPrints> => {
  const files: string[] = []
  const folders = [folder]
  let hasMore = false
  // Folders are appended while they are walked.
  for (const [place, each] of folders.entries()) {
    let within: Entries
    try {
      // oxlint-disable-next-line no-await-in-loop -- a folder at a time, so that the order holds
      within = await entriesOf(each, most - files.length)
    } catch (error) {
      if (place === 0) throw error
      continue
    }
    files.push(...within.files.toSorted(byName).map((name) => join(each, name)))
    if (within.tooMany) return { files: files.slice(0, most), folders, hasMore, tooMany: true }
    if (deep) {
      const below = within.folders.toSorted(byName).map((name) => join(each, name))
      folders.splice(place + 1, 0, ...below)
    } else hasMore ||= within.folders.length > 0
  }
  return { files, folders, hasMore, tooMany: false }
}

interface Entries {
  readonly files: readonly string[]
  readonly folders: readonly string[]
  readonly tooMany: boolean
}

const entriesOf = async (folder: string, most: number): Promise<Entries> => {
  const files: string[] = []
  const folders: string[] = []
  for await (const entry of await opendir(folder, { bufferSize: 256 })) {
    const { name } = entry
    if (entry.isDirectory()) {
      if (!name.startsWith('.')) folders.push(name)
    } else if (isPrintName(name) && (await isFile(entry, join(folder, name)))) {
      if (files.length === most) return { files, folders, tooMany: true }
      files.push(name)
    }
  }
  return { files, folders, tooMany: false }
}

const isFile = async (entry: Dirent, path: string): Promise<boolean> => {
  if (entry.isFile()) return true
  // Some file systems do not say in the list what an entry is.
  if (entry.isFIFO() || entry.isSocket() || entry.isBlockDevice() || entry.isCharacterDevice()) {
    return false
  }
  return stat(path).then(
    (target) => target.isFile(),
    () => false,
  )
}
