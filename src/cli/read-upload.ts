import type { ReadOptions } from '../print/index.ts'
import type { Input } from './read-input.ts'
import { ReadingPool } from './reading-pool.ts'
import type { Upload } from './with-upload.ts'

/**
 * Reads what was sent in a thread of its own, so that others are answered meanwhile.
 *
 * @param called - name of the file to the person
 * @throws Fault: unreadable input
 */
export const readUpload = async (
  { file }: Upload,
  called: string,
  options: ReadOptions,
): Promise<Input> => {
  const pool = new ReadingPool(options, 1)
  try {
    return { ...(await pool.read(file)), file: called }
  } finally {
    await pool.end()
  }
}
