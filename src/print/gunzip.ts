import { accept, type Outcome, refuse } from '../units/index.ts'
import { InflationMeter } from './container-limits.ts'
import { GzipSource } from './gzip-source.ts'
import { ReadStop } from './read-stop.ts'
import { isInflateError } from './unpacking.ts'

/** What is read whole is bounded by its size alone: lines and tables pack far better than prints. */
const boundless = {
  members: 1,
  bytes: Number.POSITIVE_INFINITY,
  ratio: Number.POSITIVE_INFINITY,
  ratioFrom: 0,
}

/**
 * What is in a gzip file, to be held whole; bytes that do not begin as one are given back as they are.
 *
 * @param most - bytes once unpacked; counted while they come out
 * @returns `too_large`, `gzip_damaged`
 */
export const gunzip = (
  bytes: Uint8Array<ArrayBuffer>,
  most: number,
): Outcome<Uint8Array<ArrayBuffer>> => {
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return accept(bytes)
  const pieces: Uint8Array[] = []
  let length = 0
  const source = new GzipSource(new InflationMeter(boundless), {
    open: () => undefined,
    write: (piece) => {
      length += piece.length
      if (length > most) {
        throw new ReadStop({
          code: 'too_large',
          message: `What is packed in it is too large: ${most} bytes at most.`,
          expected: `${most} bytes at most`,
        })
      }
      pieces.push(piece)
    },
    close: () => undefined,
  })
  try {
    source.push(bytes)
    source.finish()
  } catch (error) {
    if (error instanceof ReadStop && error.refusal.code === 'too_large')
      return refuse(error.refusal)
    if (!(error instanceof ReadStop || isInflateError(error))) throw error
    return refuse({
      code: 'gzip_damaged',
      message: 'This gzip file is damaged, or cut short. Export and pack it again.',
    })
  }
  const whole = new Uint8Array(length)
  let at = 0
  for (const piece of pieces) {
    whole.set(piece, at)
    at += piece.length
  }
  return accept(whole)
}
