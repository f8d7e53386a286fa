import { createReadStream } from 'node:fs'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import type { PausedCopyServed } from '../http/index.ts'
import { firmwareFamilies } from '../print/index.ts'
import { accept, refuse } from '../units/index.ts'
import { makePausedCopy } from './make-paused-copy.ts'
import { withUploadedPrint } from './with-uploaded-print.ts'

/** Makes a copy with stops of what was sent. */
export const pausedCopyOfUpload: PausedCopyServed = async (
  bytes,
  { file: called, layers, purpose, note, member, firmware, ...told },
) => {
  if (firmware === undefined) {
    return refuse({
      code: 'firmware_needed',
      message:
        'Firmware families are told to wait in different words: say which one runs the printer.',
      expected: firmwareFamilies.map(({ id }) => id).join(', '),
    })
  }
  return withUploadedPrint(bytes, async ({ file, folder, keepFor }) => {
    const draft = join(folder, 'copy.gcode')
    const wanted = {
      layers,
      purpose,
      ...(note !== undefined && { note }),
      ...(member !== undefined && { member }),
    }
    const made = await makePausedCopy(
      { ...wanted, file, draft, called, options: { firmware, ...told } },
      new AbortController().signal,
    )
    const copy = createReadStream(draft)
    keepFor(copy)
    return accept({ told: made, bytes: Readable.toWeb(copy) })
  })
}
