import { crc32, deflateRawSync } from 'node:zlib'

/** A file to put into a zip, well made or not. */
export interface MemberToPack {
  readonly name: string
  readonly bytes: Uint8Array
  readonly kind?: 'deflated' | 'stored' | 'described' | 'described, wide, no mark' | 'wide'
  /** Flags added to those of the kind. */
  readonly flags?: number
  /** Overrides the method; the bytes then go in as they are. */
  readonly method?: number
}

interface Ends {
  /** Number of this part, 0 for the only one. */
  readonly disk?: number
  /** How many members the directory lists. */
  readonly listed?: number
}

const le = (size: 2 | 4 | 8, ...values: number[]): Buffer => {
  const bytes = Buffer.alloc(size * values.length)
  values.forEach((value, i) => {
    if (size === 8) bytes.writeBigUInt64LE(BigInt(value), i * 8)
    else bytes.writeUIntLE(value, i * size, size)
  })
  return bytes
}

/**
 * A zip written by hand from PKWARE APPNOTE.TXT, 4.3 (from memory), so that what no packer writes
 * can be written too. `kind` says how the sizes are told.
 */
export const zipOf = (members: readonly MemberToPack[], ends: Ends = {}): Uint8Array => {
  const parts: Buffer[] = []
  const directory: Buffer[] = []
  let offset = 0
  for (const { name, bytes, kind = 'deflated', flags = 0, method } of members) {
    const described = kind.startsWith('described')
    const wide = kind.includes('wide')
    const stored = kind === 'stored' || name.endsWith('/')
    const data = stored || method !== undefined ? Buffer.from(bytes) : deflateRawSync(bytes)
    const how = method ?? (stored ? 0 : 8)
    const title = Buffer.from(name)
    const bits = flags | 0x800 | (described ? 8 : 0)
    const sum = crc32(bytes)
    const extra =
      wide && !stored
        ? Buffer.concat([
            le(2, 1, 16),
            le(8, ...(described ? [0, 0] : [bytes.length, data.length])),
          ])
        : Buffer.alloc(0)
    const sizes = described
      ? le(4, 0, 0, 0)
      : wide && !stored
        ? le(4, sum, 0xffffffff, 0xffffffff)
        : le(4, sum, data.length, bytes.length)
    const common = Buffer.concat([le(2, bits, how, 0, 0), sizes, le(2, title.length, extra.length)])
    const mark = kind.includes('no mark') ? Buffer.alloc(0) : le(4, 0x08074b50)
    const descriptor = described
      ? Buffer.concat([mark, le(4, sum), le(wide ? 8 : 4, data.length, bytes.length)])
      : Buffer.alloc(0)
    const local = [le(4, 0x04034b50), le(2, 20), common, title, extra, data, descriptor]
    parts.push(...local)
    directory.push(
      Buffer.concat([
        le(4, 0x02014b50),
        le(2, 20, 20, bits, how, 0, 0),
        le(4, sum, data.length, bytes.length),
        le(2, title.length, 0, 0, 0, 0),
        le(4, 0, offset),
        title,
      ]),
    )
    offset += local.reduce((sum_, part) => sum_ + part.length, 0)
  }
  const listed = directory.slice(0, ends.listed ?? directory.length)
  const { disk = 0 } = ends
  const size = listed.reduce((sum, part) => sum + part.length, 0)
  const end = [
    le(4, 0x06054b50),
    le(2, disk, disk, listed.length, listed.length),
    le(4, size, offset),
    le(2, 0),
  ]
  return Buffer.concat([...parts, ...listed, ...end])
}
