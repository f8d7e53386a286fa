import type { TwinRefusal } from './twin-result.ts'

/** One line of the file, without its end. */
export interface Line {
  /** 1-based. */
  readonly number: number
  readonly text: string
}

export interface ProgramText {
  readonly byteOrderMark: boolean
  readonly loneCr: boolean
  readonly lines: readonly Line[]
}

/** How much of the file's beginning is looked at to tell text from something else. */
const headLength = 512

const magics: readonly string[] = [
  'BZh', // bzip2
  '\xfd7zXZ\x00', // xz
  '\x28\xb5\x2f\xfd', // zstd
  '7z\xbc\xaf\x27\x1c', // 7z
  'Rar!\x1a\x07', // rar
  '%PDF', // PDF
  '\x89PNG', // PNG
  '\xff\xd8\xff', // JPEG
  '\x7fELF', // ELF
  'PK\x03\x04', // zip
  '\x1f\x8b', // gzip
]

const isControl = (char: string): boolean => char < ' ' && !'\t\n\v\f\r'.includes(char)

/** At least half of the bytes of one parity are NUL and none of the other. */
const looksLikeUtf16 = (head: string): boolean => {
  if (head.startsWith('\xff\xfe') || head.startsWith('\xfe\xff')) return true
  if (head.length < 4) return false
  let even = 0
  let odd = 0
  for (let at = 0; at < head.length; at++) {
    if (head[at] !== '\0') continue
    if (at % 2 === 0) even += 1
    else odd += 1
  }
  return Math.min(even, odd) === 0 && Math.max(even, odd) >= head.length / 4
}

const looksForeign = (head: string): boolean => {
  if (magics.some((magic) => head.startsWith(magic))) return true
  const text = head.replace(/^\xef\xbb\xbf/, '').trimStart()
  if (text.startsWith('<')) return true
  if (/^solid\b/.test(text) && head.includes('facet normal')) return true
  const controls = head.split('').filter(isControl).length
  return head.includes('\0') && controls >= 10 && controls * 10 > head.length
}

/** Bytes to lines; or why they cannot be machine code. */
export const readText = (bytes: Uint8Array): ProgramText | TwinRefusal => {
  if (bytes.length === 0) return { ok: false, code: 'empty' }
  let text = Buffer.from(bytes).toString('latin1')
  const head = text.slice(0, headLength)
  if (looksLikeUtf16(head)) return { ok: false, code: 'utf16' }
  if (looksForeign(head)) return { ok: false, code: 'not_machine_code' }
  const byteOrderMark = text.startsWith('\xef\xbb\xbf')
  if (byteOrderMark) text = text.slice(3)
  const parts = text.split(/\r\n|\r|\n/)
  // What follows the last line end is a line only when something stands there.
  if (parts.at(-1) === '') parts.pop()
  return {
    byteOrderMark,
    loneCr: /\r(?!\n)/.test(text),
    lines: parts.map((part, index) => ({ number: index + 1, text: part })),
  }
}
