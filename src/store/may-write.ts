import { access, constants } from 'node:fs/promises'
import { dirname } from 'node:path'

/** Whether file and folder let this person write; root is held up by a mount only. */
export const mayWrite = async (file: string): Promise<boolean> => {
  try {
    await Promise.all([access(file, constants.W_OK), access(dirname(file), constants.W_OK)])
    return true
  } catch {
    return false
  }
}
