import { readSync } from 'node:fs'

/** Slices of an open file from one byte to another; each holds until the next is asked for. */
export function* slicesOf(file, buffer, from, end) {
  for (let at = from; at < end; ) {
    const length = readSync(file, buffer, 0, Math.min(buffer.length, end - at), at)
    if (length === 0) return
    yield buffer.subarray(0, length)
    at += length
  }
}
