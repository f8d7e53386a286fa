import { gunzip } from '../../print/index.ts'
import { accept, type Outcome, refuse } from '../../units/index.ts'
import { importWords } from '../strings/import-words.ts'

/** As much as a server takes over at once, bytes once unpacked. */
const most = 64 * 2 ** 20

/** The text of a file, packed with gzip or not. @returns `too_large`, `gzip_damaged`, `not_utf8` */
export const textOfFile = async (file: Blob): Promise<Outcome<string>> => {
  if (file.size > most) return refuse({ code: 'too_large', message: importWords.tooLarge })
  const bytes = gunzip(new Uint8Array(await file.arrayBuffer()), most)
  if (!bytes.ok) return bytes
  try {
    return accept(new TextDecoder('utf-8', { fatal: true }).decode(bytes.value))
  } catch (error) {
    if (!(error instanceof TypeError)) throw error
    return refuse({ code: 'not_utf8', message: importWords.notText })
  }
}
