import { createSHA256 } from 'hash-wasm'

/** The SHA-256 of what is added. */
export interface SliceHash {
  readonly add: (slice: Uint8Array<ArrayBuffer>) => void
  /** 64 hexadecimal digits. Call once. */
  readonly digest: () => Promise<string>
}

/** Largest file that is held whole, bytes. */
const heldWhole = 256 * 2 ** 20

const hex = (digest: ArrayBuffer): string =>
  Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('')

/**
 * Hashes a file given in slices. The browser's own hash takes no slices, but is by far the fastest: it is
 * taken where there is one (on secure origins) and the file fits into memory.
 *
 * Measured, time of a processor for 100 MB: gathered and hashed by the browser 0.26 s, in WebAssembly
 * 0.36 s, in JavaScript 0.5 s. To read the file once more for it takes another 0.4 s.
 *
 * @param bytes - of the file; it must not have more
 */
export async function hashOfSlices(bytes: number): Promise<SliceHash> {
  if (bytes <= heldWhole && globalThis.crypto?.subtle !== undefined) {
    const whole = new Uint8Array(bytes)
    let length = 0
    return {
      add: (slice) => {
        whole.set(slice, length)
        length += slice.length
      },
      digest: async () => hex(await crypto.subtle.digest('SHA-256', whole.subarray(0, length))),
    }
  }
  const hash = await createSHA256()
  return { add: (slice) => void hash.update(slice), digest: async () => hash.digest() }
}
