import { type Outcome, refuse } from '../units/index.ts'
import { Fault, refusalOf } from './fault.ts'
import { type Upload, withUpload } from './with-upload.ts'

/** So many are taken in and read at once: each takes a thread, and room on the disk. */
const mostAtOnce = 4

let underWay = 0

/**
 * Works with a print file that was sent, and clears it away.
 *
 * @returns `busy`, and what the work has at fault
 */
export const withUploadedPrint = async <T>(
  bytes: ReadableStream<Uint8Array>,
  work: (upload: Upload) => Promise<Outcome<T>>,
): Promise<Outcome<T>> => {
  if (underWay >= mostAtOnce) {
    return refuse({
      code: 'busy',
      message: `${mostAtOnce} prints are being read already. Send it again in a moment.`,
    })
  }
  underWay++
  try {
    return await withUpload(bytes, work)
  } catch (error) {
    if (!(error instanceof Fault)) throw error
    return refuse(refusalOf(error))
  } finally {
    underWay--
  }
}
