import { stopContainer } from './container-limits.ts'

/** First bytes of a zip's records, as little-endian numbers. */
export const zipSignature = {
  member: 0x04034b50,
  descriptor: 0x08074b50,
  directory: 0x02014b50,
  end: 0x06054b50,
  end64: 0x06064b50,
  locator64: 0x07064b50,
  /** Precedes an encrypted directory. */
  archiveExtra: 0x08064b50,
} as const

/** What stands before a member's data. */
export interface ZipMember {
  readonly name: string
  readonly method: number
  /** Size and check sum follow the data. */
  readonly described: boolean
  /** Sizes are of eight bytes. */
  readonly wide: boolean
  readonly crc: number
  readonly packed: number
  readonly size: number
  /** Length of the record itself. */
  readonly length: number
}

const flag = { encrypted: 1, described: 8, patched: 32, masked: 0x2000, utf8: 0x0800 }
const unknownSize = 0xffff_ffff

/**
 * Reads the record before a member's data.
 *
 * @param head - begins with the signature
 * @returns null while there are too few bytes
 * @see PKWARE APPNOTE.TXT, 4.3.7 and 4.5.3 (from memory)
 */
export function zipMember(head: Uint8Array): ZipMember | null {
  if (head.length < 30) return null
  const view = viewOf(head)
  const flags = view.getUint16(6, true)
  const nameLength = view.getUint16(26, true)
  const extraLength = view.getUint16(28, true)
  const length = 30 + nameLength + extraLength
  if (head.length < length) return null
  const name = textOf(head.subarray(30, 30 + nameLength))
  if (flags & (flag.encrypted | flag.masked)) {
    stopContainer(
      'container_encrypted',
      `"${name}" in the zip is locked with a password. Unpack it yourself and give the machine code.`,
    )
  }
  const method = view.getUint16(8, true)
  const described = (flags & flag.described) !== 0
  if (flags & flag.patched || (method !== 0 && method !== 8) || (method === 0 && described)) {
    stopContainer(
      'container_unsupported',
      `"${name}" in the zip is packed in a way not read here (method ${method}). Zip it again the usual way, or unpack it and give the machine code.`,
    )
  }
  const wide = wideSizes(head.subarray(30 + nameLength, length))
  let packed = view.getUint32(18, true)
  let size = view.getUint32(22, true)
  if (!described && wide !== null && (packed === unknownSize || size === unknownSize)) {
    let at = 0
    const next = (): number => {
      if (wide.byteLength < at + 8) corrupt()
      at += 8
      return Number(wide.getBigUint64(at - 8, true))
    }
    if (size === unknownSize) size = next()
    if (packed === unknownSize) packed = next()
  }
  return {
    name,
    method,
    described,
    wide: wide !== null,
    crc: view.getUint32(14, true),
    packed,
    size,
    length,
  }
}

/** The extra field with sizes of eight bytes, where there is one. */
function wideSizes(extra: Uint8Array): DataView | null {
  const view = viewOf(extra)
  for (let at = 0; at + 4 <= extra.length; ) {
    const length = view.getUint16(at + 2, true)
    if (view.getUint16(at, true) === 1) return viewOf(extra.subarray(at + 4, at + 4 + length))
    at += 4 + length
  }
  return null
}

/** What follows a member's data when it is `described`. */
export interface ZipDescriptor {
  readonly crc: number
  readonly packed: number
  readonly size: number
  readonly length: number
}

/** Reads a descriptor; null while there are too few bytes. */
export function zipDescriptor(head: Uint8Array, wide: boolean): ZipDescriptor | null {
  if (head.length < 4) return null
  const signed = viewOf(head).getUint32(0, true) === zipSignature.descriptor ? 4 : 0
  const length = signed + (wide ? 20 : 12)
  if (head.length < length) return null
  const view = viewOf(head.subarray(signed))
  const number = (at: number): number =>
    wide ? Number(view.getBigUint64(at, true)) : view.getUint32(at, true)
  return { crc: view.getUint32(0, true), packed: number(4), size: number(wide ? 12 : 8), length }
}

/**
 * Length of a record of the directory or the end, with the disk it names where it is an end.
 *
 * @returns null while there are too few bytes
 */
export function zipTail(
  head: Uint8Array,
): { readonly length: number; readonly disk: number; readonly last: boolean } | null {
  const view = viewOf(head)
  const long = (fixed: number, length: () => number, disk = (): number => 0, last = false) =>
    head.length < fixed ? null : { length: length(), disk: disk(), last }
  switch (view.getUint32(0, true)) {
    case zipSignature.directory:
      return long(
        46,
        () => 46 + view.getUint16(28, true) + view.getUint16(30, true) + view.getUint16(32, true),
      )
    case zipSignature.end64:
      return long(12, () => Math.min(1e6, 12 + Number(view.getBigUint64(4, true))))
    case zipSignature.locator64:
      return long(20, () => 20)
    case zipSignature.end:
      return long(
        22,
        () => 22 + view.getUint16(20, true),
        () => view.getUint16(4, true) % 0xffff,
        true,
      )
    case zipSignature.archiveExtra:
      return stopContainer(
        'container_encrypted',
        'The zip is locked with a password. Unpack it yourself and give the machine code.',
      )
    default:
      return corrupt()
  }
}

/** Leaves a zip that is no zip here. */
export function corrupt(): never {
  return stopContainer(
    'container_corrupt',
    'The zip is damaged: a part of it is not where it should be. Zip or copy it again.',
  )
}

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)

/** UTF-8 where it is, else each byte as a letter. */
function textOf(bytes: Uint8Array): string {
  const escaped = Array.from(bytes, (byte) => `%${byte.toString(16).padStart(2, '0')}`)
  try {
    return decodeURIComponent(escaped.join(''))
  } catch {
    return String.fromCharCode(...bytes)
  }
}
