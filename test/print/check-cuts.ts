import { expect } from 'vitest'
import { PrintReader, type ReadOptions, readPrint } from '../../src/print/index.ts'
import { digest } from './fast-reading.ts'

/** Longer inputs are cut at some places only. */
const everyCutUpTo = 2048

/** The same bytes in other slices give the same outcome, to the last figure. */
export const checkCuts = (bytes: Uint8Array, options: ReadOptions = {}): void => {
  const whole = digest(readPrint([bytes], options))
  const step = Math.max(1, Math.ceil(bytes.length / everyCutUpTo))
  if (step > 1) {
    // A cut costs a reading: for long inputs a dozen places stand for all.
    for (let part = 1; part < 12; part++) {
      const at = Math.floor((bytes.length * part) / 12)
      const cut = digest(readPrint([bytes.subarray(0, at), bytes.subarray(at)], options))
      expect(cut === whole, `cut at ${at}`).toBe(true)
    }
    return
  }
  for (let at = 0; at <= bytes.length; at++) {
    const cut = digest(readPrint([bytes.subarray(0, at), bytes.subarray(at)], options))
    if (cut !== whole) expect(JSON.parse(cut), `cut at ${at}`).toEqual(JSON.parse(whole))
  }

  // One byte at a time, from a buffer that is used again and again.
  const reader = new PrintReader(options)
  const slice = new Uint8Array(1)
  for (const byte of bytes) {
    slice[0] = byte
    reader.push(slice)
    reader.push(new Uint8Array(0))
  }
  expect(JSON.parse(digest(reader.finish())), 'byte by byte').toEqual(JSON.parse(whole))
}
