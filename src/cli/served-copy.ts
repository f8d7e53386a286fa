import { createReadStream, createWriteStream } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import type { ReadableStream as NodeStream } from 'node:stream/web'
import type { PausedCopyServed } from '../http/index.ts'
import { firmwareFamilies } from '../print/index.ts'
import { accept, refuse } from '../units/index.ts'
import { Fault } from './fault.ts'
import { makePausedCopy } from './make-paused-copy.ts'

/** Makes a copy with stops of what was sent, in a folder of its own that is cleared away. */
export const pausedCopyOfUpload: PausedCopyServed = async (bytes, wanted) => {
  const { firmware, ...more } = wanted
  const family = firmwareFamilies.find(({ id }) => id === firmware)
  if (family === undefined) {
    return refuse({
      code: 'firmware_needed',
      message:
        'Firmware families are told to wait in different words: say which one runs the printer.',
      expected: firmwareFamilies.map(({ id }) => id).join(', '),
      received: firmware === '' ? 'nothing' : firmware,
    })
  }
  const folder = await mkdtemp(join(tmpdir(), 'reelreckon-copy-'))
  const clear = (): void => void rm(folder, { recursive: true, force: true })
  try {
    const file = join(folder, 'print')
    const draft = join(folder, 'copy.gcode')
    await pipeline(
      Readable.fromWeb(bytes as unknown as NodeStream),
      createWriteStream(file, { mode: 0o600 }),
    )
    const told = await makePausedCopy(
      { file, draft, called: 'the print', options: { firmware: family.id }, ...more },
      new AbortController().signal,
    )
    const copy = createReadStream(draft)
    copy.once('close', clear)
    return accept({ told, bytes: Readable.toWeb(copy) })
  } catch (error) {
    clear()
    if (!(error instanceof Fault)) throw error
    const { code, message, line } = error.error
    return refuse({ code, message, ...(line !== null && { line }) })
  }
}
