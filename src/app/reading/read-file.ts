import type { PrintFile } from '../../print/index.ts'
import { accept, type Outcome, type Refusal, refuse } from '../../units/index.ts'
import { fileWords } from '../strings/file-words.ts'
import { holdBackUntil } from './reading-lock.ts'
import { takeWorkers } from './reading-workers.ts'
import type {
  FileAnswers,
  HashingAsked,
  HashingMessage,
  ReadingAsked,
  ReadingMessage,
} from './worker-message.ts'

/** A print file that was read. */
export interface ReadFile extends PrintFile {
  readonly name: string
  readonly bytes: number
  readonly answers: FileAnswers
}

/** What comes of a file, each as soon as it is there. */
export interface FileReading {
  /** Refusals are those of `PrintFileReader` and `file_lost`. */
  readonly read: Promise<Outcome<ReadFile>>
  /** SHA-256 of its bytes, 64 hexadecimal digits; refused as the reading is. */
  readonly sha256: Promise<Outcome<string>>
}

/**
 * With fewer processors the hash waits for the end of the reading: the browser takes most of one to hand a
 * file over, and what is seen first is read.
 */
const processorsToHashBeside = 4

const lost: Refusal = { code: 'file_lost', message: fileWords.lost }

/**
 * Reads and hashes a file in two workers, which end when all is there; the file does not leave the browser,
 * and the page stays responsive.
 *
 * @param answers - what a person said that the file leaves open
 * @param onProgress - told the bytes read so far, some twice a second
 * @param signal - ends both at once
 * @returns promises that fail with the signal's reason when it aborts
 */
export function readFile(
  file: File,
  answers: FileAnswers,
  onProgress: (bytes: number) => void,
  signal: AbortSignal,
): FileReading {
  signal.throwIfAborted()
  const { reader, hasher } = takeWorkers()
  const read = whatIsSaid<ReadFile>(
    reader,
    signal,
    ({ data: said }: MessageEvent<ReadingMessage>, settle) => {
      if (said.kind === 'progress') onProgress(said.bytes)
      else if (said.kind === 'lost') settle(refuse(lost))
      else if (!said.outcome.ok) settle(said.outcome)
      else {
        onProgress(file.size)
        settle(accept({ ...said.outcome.value, name: file.name, bytes: file.size, answers }))
      }
    },
  )
  const hashed = hashIn(hasher, signal)
  // Heard below; where the reading fails first, nobody waits for it.
  hashed.catch(() => undefined)
  ask(reader, { file, answers })
  const isBeside = navigator.hardwareConcurrency >= processorsToHashBeside
  if (isBeside) ask(hasher, { file })
  const sha256 = read
    .then((outcome) => {
      if (!outcome.ok) return outcome
      if (!isBeside) ask(hasher, { file })
      return hashed
    })
    .finally(() => {
      reader.terminate()
      hasher.terminate()
    })
  holdBackUntil(sha256)
  return { read, sha256 }
}

/** The SHA-256 of a file alone, 64 hexadecimal digits; `file_lost`. */
export function hashFile(file: File, signal: AbortSignal): Promise<Outcome<string>> {
  const { reader, hasher } = takeWorkers()
  reader.terminate()
  const hashed = hashIn(hasher, signal).finally(() => hasher.terminate())
  ask(hasher, { file })
  return hashed
}

const ask = (worker: Worker, asked: ReadingAsked | HashingAsked): void => worker.postMessage(asked)

const hashIn = (hasher: Worker, signal: AbortSignal): Promise<Outcome<string>> =>
  whatIsSaid<string>(hasher, signal, ({ data: said }: MessageEvent<HashingMessage>, settle) =>
    settle(said.kind === 'lost' ? refuse(lost) : accept(said.sha256)),
  )

/** Hears a worker until it has said all. */
const whatIsSaid = <Value>(
  worker: Worker,
  signal: AbortSignal,
  hear: (event: MessageEvent, settle: (outcome: Outcome<Value>) => void) => void,
): Promise<Outcome<Value>> =>
  new Promise<Outcome<Value>>((settle, fail) => {
    worker.addEventListener('message', (event) => hear(event, settle))
    worker.addEventListener('error', (event) => fail(new Error(event.message)))
    signal.addEventListener('abort', () => fail(signal.reason), { once: true })
  })
