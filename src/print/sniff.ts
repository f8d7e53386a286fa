import type { Refusal } from '../units/index.ts'

/** Bytes of the file's head that are looked at. */
export const headBytes = 1024

/** What a file is when it is no text, by its first bytes. */
const magics: readonly (readonly [bytes: readonly number[], what: string])[] = [
  [[0x42, 0x5a, 0x68], 'a bzip2 archive'],
  [[0xfd, 0x37, 0x7a, 0x58, 0x5a], 'an xz archive'],
  [[0x28, 0xb5, 0x2f, 0xfd], 'a zstd archive'],
  [[0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c], 'a 7z archive'],
  [[0x52, 0x61, 0x72, 0x21, 0x1a, 0x07], 'a rar archive'],
  [[0x25, 0x50, 0x44, 0x46], 'a PDF document'],
  [[0x89, 0x50, 0x4e, 0x47], 'a PNG picture'],
  [[0xff, 0xd8, 0xff], 'a JPEG picture'],
  [[0x7f, 0x45, 0x4c, 0x46], 'a program'],
  [[0x4d, 0x5a, 0x90, 0x00], 'a program'],
  [[0x47, 0x49, 0x46, 0x38], 'a GIF picture'],
]

/**
 * Looks at the head of a file and says why it is no machine code, or null when it may be.
 *
 * @param head - the first `headBytes` bytes, or the whole of a shorter file
 */
export function sniff(head: Uint8Array): Refusal | null {
  if (isUtf16(head)) {
    return {
      code: 'utf16',
      message:
        'The file is UTF-16 text, which no printer runs. Save it again as plain (UTF-8) text.',
    }
  }
  for (const [bytes, what] of magics) if (startsWith(head, bytes)) return notCode(`is ${what}`)
  if (startsWith(head, [0x1f, 0x8b]) || startsWith(head, [0x50, 0x4b, 3, 4])) {
    return notCode('is a gzip or zip archive inside another, or handed to the plain reader')
  }
  const text = asciiOf(head).trimStart()
  if (/^<(?:\?xml|!doctype|html|svg|amf|model)/i.test(text)) return notCode('is XML or a web page')
  if (/^solid\b[^\n]*\s+facet/i.test(text))
    return notCode('is a model (STL), not a print made from it')
  if (/^[[{]\s*["[{\]}]/.test(text)) return notCode('is JSON')
  return controlShare(head) > 0.1 ? notCode('is binary') : null
}

const notCode = (what: string): Refusal => ({
  code: 'not_machine_code',
  message: `The file ${what}. Export the print as plain machine code (text) and give that.`,
  at: 0,
})

function startsWith(head: Uint8Array, bytes: readonly number[]): boolean {
  return head.length >= bytes.length && bytes.every((byte, i) => head[i] === byte)
}

/** A UTF-16 mark, or NUL in every second place. */
function isUtf16(head: Uint8Array): boolean {
  if (startsWith(head, [0xff, 0xfe]) || startsWith(head, [0xfe, 0xff])) return true
  if (head.length < 8) return false
  const nuls: [number, number] = [0, 0]
  head.forEach((byte, i) => {
    if (byte === 0) nuls[i & 1 ? 1 : 0]++
  })
  const half = head.length / 2
  return (nuls[0] > 0.7 * half && nuls[1] === 0) || (nuls[1] > 0.7 * half && nuls[0] === 0)
}

function asciiOf(head: Uint8Array): string {
  const from = startsWith(head, [0xef, 0xbb, 0xbf]) ? 3 : 0
  return String.fromCharCode(...head.subarray(from, from + 256))
}

/** Share of bytes that no text has. */
function controlShare(head: Uint8Array): number {
  let controls = 0
  for (const byte of head) {
    if (byte < 32 && byte !== 9 && byte !== 10 && byte !== 12 && byte !== 13) controls++
  }
  return head.length === 0 ? 0 : controls / head.length
}
