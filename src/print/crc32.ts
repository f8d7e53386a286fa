/** Eight tables, so that eight bytes are taken in one step; the first is the usual one. */
const tables: readonly Uint32Array[] = (() => {
  const first = Uint32Array.from({ length: 256 }, (_, byte) => {
    let remainder = byte
    for (let bit = 0; bit < 8; bit++) {
      remainder = remainder & 1 ? (remainder >>> 1) ^ 0xedb88320 : remainder >>> 1
    }
    return remainder
  })
  const all = [first]
  for (let i = 1; i < 8; i++) {
    const last = all[i - 1]!
    all.push(last.map((value) => (value >>> 8) ^ first[value & 255]!))
  }
  return all
})()

const [t0, t1, t2, t3, t4, t5, t6, t7] = tables as [
  Uint32Array,
  Uint32Array,
  Uint32Array,
  Uint32Array,
  Uint32Array,
  Uint32Array,
  Uint32Array,
  Uint32Array,
]

/**
 * The check sum of gzip and zip over one more piece of data.
 *
 * @param before - what came out for the pieces before, 0 at the start
 * @returns 0 to 2³² − 1; 0xCBF43926 for the nine characters 123456789
 * @see RFC 1952, section 8 (from memory)
 */
export function crc32(bytes: Uint8Array, before = 0): number {
  let crc = ~before
  let i = 0
  for (const end = bytes.length - 7; i < end; i += 8) {
    crc ^= bytes[i]! | (bytes[i + 1]! << 8) | (bytes[i + 2]! << 16) | (bytes[i + 3]! << 24)
    crc =
      t7[crc & 255]! ^
      t6[(crc >>> 8) & 255]! ^
      t5[(crc >>> 16) & 255]! ^
      t4[crc >>> 24]! ^
      t3[bytes[i + 4]!]! ^
      t2[bytes[i + 5]!]! ^
      t1[bytes[i + 6]!]! ^
      t0[bytes[i + 7]!]!
  }
  for (; i < bytes.length; i++) crc = t0[(crc ^ bytes[i]!) & 255]! ^ (crc >>> 8)
  return ~crc >>> 0
}
