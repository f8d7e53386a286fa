import { open } from 'node:fs/promises'

/** Has the names in a folder written to the disk: a new file is there after a power cut only then. */
export const syncFolder = async (folder: string): Promise<void> => {
  // Windows does not open folders; NTFS keeps a journal of names by itself.
  if (process.platform === 'win32') return
  await syncFile(folder)
}

export const syncFile = async (path: string): Promise<void> => {
  const handle = await open(path, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
