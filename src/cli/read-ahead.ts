import { read } from 'node:fs'
import { borrowSlices } from '../print/index.ts'

const sliceBytes = 2 ** 19
/** Slices on their way while one is taken: with fewer, taking waits for reading now and then. */
const ahead = 3

interface Slice {
  readonly buffer: Uint8Array
  readonly length: Promise<number>
}

/**
 * Reads an open file in slices, the next ones on their way while one is taken. Buffers are used
 * again: a slice is only good until `take` returns.
 *
 * @param seekable - false for pipes and devices, which are read one slice at a time
 * @param take - returns false when there is no need for more
 */
export const readAhead = async (
  fd: number,
  seekable: boolean,
  take: (slice: Uint8Array) => boolean,
): Promise<void> => {
  let position = 0
  const start = (buffer: Uint8Array): Slice => {
    const at = seekable ? position : null
    position += sliceBytes
    const length = fill(fd, buffer, at)
    // A failure is met where the slice is awaited, which may be never.
    length.catch(() => undefined)
    return { buffer, length }
  }
  const borrowed = borrowSlices(sliceBytes)
  const slices = Array.from({ length: seekable ? ahead : 1 }, (_, k) =>
    start(borrowed?.slices[k] ?? new Uint8Array(sliceBytes)),
  )
  try {
    for (let slice = slices.shift(); slice !== undefined; slice = slices.shift()) {
      // oxlint-disable-next-line no-await-in-loop -- slices come one after another
      const length = await slice.length
      if (length === 0 || !take(slice.buffer.subarray(0, length))) return
      slices.push(start(slice.buffer))
    }
  } finally {
    // The file must not be closed under a read that is on its way.
    await Promise.allSettled(slices.map(({ length }) => length))
    borrowed?.giveBack()
  }
}

/** Fills a buffer from a place in the file; a pipe (null) gives what it has. */
const fill = (fd: number, buffer: Uint8Array, at: number | null): Promise<number> =>
  new Promise((resolve, reject) => {
    const more = (got: number): void => {
      const from = at === null ? null : at + got
      read(fd, buffer, got, buffer.length - got, from, (error, bytes) => {
        if (error !== null) reject(error)
        else if (bytes === 0 || at === null || got + bytes === buffer.length) resolve(got + bytes)
        else more(got + bytes)
      })
    }
    more(0)
  })
