import { createWriteStream } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import type { ReadableStream as NodeStream } from 'node:stream/web'

/** What was sent, as a file in a folder of its own. */
export interface Upload {
  readonly file: string
  /** For what is made of it. */
  readonly folder: string
  /** Keeps both until a stream of what is there is closed; they are gone after the work otherwise. */
  readonly keepFor: (stream: Readable) => void
}

/** Works with what was sent as a file, and clears it away. */
export const withUpload = async <T>(
  bytes: ReadableStream<Uint8Array>,
  work: (upload: Upload) => Promise<T>,
): Promise<T> => {
  const folder = await mkdtemp(join(tmpdir(), 'reelreckon-serve-'))
  const clear = (): Promise<void> => rm(folder, { recursive: true, force: true })
  let stream: Readable | undefined
  try {
    const file = join(folder, 'sent')
    await pipeline(
      Readable.fromWeb(bytes as unknown as NodeStream),
      createWriteStream(file, { mode: 0o600 }),
    )
    const keepFor = (kept: Readable): void => {
      stream = kept
    }
    return await work({ file, folder, keepFor })
  } finally {
    if (stream === undefined || stream.closed) await clear()
    else stream.once('close', () => void clear())
  }
}
