import { stat } from 'node:fs/promises'
import { exitCode, Fault, usageFault } from './fault.ts'
import { printsInFolder } from './prints-in-folder.ts'
import { faultOfFile } from './read-input.ts'

/** A file to be read, or why a folder gives none. */
export type FileAsked = string | Fault

/** The files that were asked for. */
export interface FilesAsked {
  /** In the order given; those of a folder by name. */
  readonly files: readonly FileAsked[]
  /** Several, or a folder: each is told in a line. */
  readonly many: boolean
}

/**
 * Files and folders as typed, the folders replaced by the prints in them.
 *
 * @param deep - with the folders in them
 * @throws Fault `stdin_twice`
 */
export const filesAsked = async (typed: readonly string[], deep: boolean): Promise<FilesAsked> => {
  if (typed.filter((file) => file === '-').length > 1) {
    throw usageFault('stdin_twice', '- stands for standard input, and can be read only once.')
  }
  const files: FileAsked[] = []
  let many = typed.length > 1
  for (const file of typed) {
    // oxlint-disable-next-line no-await-in-loop -- in order; folders are few
    if (file !== '-' && (await isFolder(file))) {
      many = true
      // oxlint-disable-next-line no-await-in-loop -- as above
      files.push(...(await filesOfFolder(file, deep)))
    } else files.push(file)
  }
  return { files, many }
}

/** @throws Fault where --subfolders is typed and no folder */
export const noFolder = ({ subfolders }: { readonly subfolders?: boolean }): void => {
  if (subfolders !== true) return
  throw usageFault(
    'needs_a_folder',
    '--subfolders is about a folder, and none is given.',
    '--subfolders',
  )
}

/** What is wrong with a name is told where the file is read. */
const isFolder = (path: string): Promise<boolean> =>
  stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  )

const filesOfFolder = async (folder: string, deep: boolean): Promise<readonly FileAsked[]> => {
  try {
    const { files, hasMore, tooMany } = await printsInFolder(folder, deep)
    if (tooMany) return [tooManyIn(folder, files.length)]
    return files.length > 0 ? files : [nothingIn(folder, hasMore)]
  } catch (error) {
    const fault = faultOfFile(error, folder)
    if (fault instanceof Fault) return [fault]
    throw fault
  }
}

const nothingIn = (folder: string, hasMore: boolean): Fault =>
  new Fault(exitCode.unreadable, {
    code: 'no_prints_in_folder',
    message: `No file in this folder ends in .gcode, .gco, .g or .nc, packed or not.${hasMore ? ' With --subfolders the folders in it are looked into, too.' : ''}`,
    file: folder,
  })

const tooManyIn = (folder: string, most: number): Fault =>
  new Fault(exitCode.unreadable, {
    code: 'too_many_prints',
    message: `There are more than ${most.toLocaleString('en-GB')} prints below this folder. Name folders in it one by one.`,
    file: folder,
  })
