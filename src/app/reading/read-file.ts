import type { PrintFile } from '../../print/index.ts'
import { accept, type Outcome, refuse } from '../../units/index.ts'
import type { FileAnswers, HashingMessage, ReadingAsked, ReadingMessage } from './worker-message.ts'

/** A print file that was read, and what it is known by. */
export interface ReadFile extends PrintFile {
  readonly name: string
  readonly bytes: number
  /** SHA-256 of its bytes, 64 hexadecimal digits. */
  readonly sha256: string
  readonly answers: FileAnswers
}

/**
 * Reads and hashes a file in two workers; the file does not leave the browser, and the page stays
 * responsive. Both workers have ended when the promise settles.
 *
 * @param answers - what a person said that the file leaves open
 * @param onProgress - told the bytes read so far, some fifteen times a second
 * @param signal - ends the reading at once
 * @returns refusals are those of `PrintFileReader` and `file_lost`
 * @throws the signal's reason when it aborts
 */
export function readFile(
  file: File,
  answers: FileAnswers,
  onProgress: (bytes: number) => void,
  signal: AbortSignal,
): Promise<Outcome<ReadFile>> {
  signal.throwIfAborted()
  const reader = new Worker(new URL('./reading-worker.ts', import.meta.url), { type: 'module' })
  const hasher = new Worker(new URL('./hashing-worker.ts', import.meta.url), { type: 'module' })
  const end = (): void => {
    reader.terminate()
    hasher.terminate()
  }
  return new Promise<Outcome<ReadFile>>((settle, fail) => {
    let read: PrintFile | null = null
    let digest: string | null = null
    const lost = (): void =>
      settle(refuse({ code: 'file_lost', message: 'The file can not be read any more.' }))
    const both = (): void => {
      if (read === null || digest === null) return
      settle(accept({ ...read, name: file.name, bytes: file.size, sha256: digest, answers }))
    }
    reader.addEventListener('message', ({ data }: MessageEvent<ReadingMessage>) => {
      if (data.kind === 'progress') onProgress(data.bytes)
      else if (data.kind === 'lost') lost()
      else if (!data.outcome.ok) settle(data.outcome)
      else {
        read = data.outcome.value
        onProgress(file.size)
        both()
      }
    })
    hasher.addEventListener('message', ({ data }: MessageEvent<HashingMessage>) => {
      if (data.kind === 'lost') return lost()
      digest = data.sha256
      both()
    })
    const broken = (event: ErrorEvent): void => fail(new Error(event.message))
    reader.addEventListener('error', broken)
    hasher.addEventListener('error', broken)
    signal.addEventListener('abort', () => fail(signal.reason), { once: true })
    reader.postMessage({ file, answers } satisfies ReadingAsked)
    hasher.postMessage(file)
  }).finally(end)
}
