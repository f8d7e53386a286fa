import type { PrintToCheck } from '../api/api.ts'
import type { ReadFile } from '../reading/read-file.ts'

/** A print of a file that was read. @returns null where the file has no such print */
export const printToCheck = (file: ReadFile, member: number): PrintToCheck | null => {
  const print = file.prints[member]
  if (print === undefined) return null
  const { name, sha256, bytes, container } = file
  return { name, sha256, bytes, container, member: print.name, reading: print.reading }
}
