import { crc32, deflateSync } from 'node:zlib'
import type { Pixels } from '../picture/index.ts'

const signature = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)
/** Eight bits to each of red, green and blue, or to the number of a colour; deflate, no interlacing. */
const trueColour = [8, 2, 0, 0, 0] as const
const byPalette = [8, 3, 0, 0, 0] as const
const mostColours = 256
/** Rows as they are pack best by numbers of colours, and as differences from the row above by colours. */
const filter = { none: 0, up: 2 } as const

const chunk = (type: string, data: Uint8Array): Uint8Array => {
  const bytes = new Uint8Array(12 + data.length)
  const view = new DataView(bytes.buffer)
  view.setUint32(0, data.length)
  bytes.set(new TextEncoder().encode(type), 4)
  bytes.set(data, 8)
  view.setUint32(8 + data.length, crc32(bytes.subarray(4, 8 + data.length)))
  return bytes
}

/**
 * Pixels as a PNG file: by a palette where their colours are few, as in a drawing they are.
 *
 * @see Portable Network Graphics (PNG) Specification (Third Edition), W3C
 */
export const pngOf = ({ width, height, rgb }: Pixels): Uint8Array<ArrayBuffer> => {
  const palette = paletteOf(rgb)
  const header = new Uint8Array(13)
  const view = new DataView(header.buffer)
  view.setUint32(0, width)
  view.setUint32(4, height)
  header.set(palette === undefined ? trueColour : byPalette, 8)
  const rows =
    palette === undefined
      ? rowsOf(rgb, 3 * width, filter.up)
      : rowsOf(numbersOf(rgb, palette), width, filter.none)
  return Buffer.concat([
    signature,
    chunk('IHDR', header),
    ...(palette === undefined ? [] : [chunk('PLTE', coloursOf(palette))]),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', new Uint8Array(0)),
  ])
}

type Palette = ReadonlyMap<number, number>

const colourAt = (rgb: Uint8Array, at: number): number =>
  (rgb[at]! << 16) | (rgb[at + 1]! << 8) | rgb[at + 2]!

/** A number for each colour, in the order of the picture; undefined where there are too many. */
const paletteOf = (rgb: Uint8Array): Palette | undefined => {
  const palette = new Map<number, number>()
  for (let at = 0; at < rgb.length; at += 3) {
    const colour = colourAt(rgb, at)
    if (palette.has(colour)) continue
    if (palette.size === mostColours) return undefined
    palette.set(colour, palette.size)
  }
  return palette
}

const numbersOf = (rgb: Uint8Array, palette: Palette): Uint8Array => {
  const numbers = new Uint8Array(rgb.length / 3)
  for (let k = 0; k < numbers.length; k++) numbers[k] = palette.get(colourAt(rgb, 3 * k))!
  return numbers
}

const coloursOf = (palette: Palette): Uint8Array =>
  Uint8Array.from(
    [...palette.keys()].flatMap((colour) => [colour >> 16, (colour >> 8) & 0xff, colour & 0xff]),
  )

/** Rows of so many bytes, each after the number of its filter. */
const rowsOf = (bytes: Uint8Array, row: number, kind: number): Uint8Array => {
  const rows = new Uint8Array(bytes.length + bytes.length / row)
  for (let from = 0, to = 0; from < bytes.length; from += row) {
    rows[to++] = kind
    for (let k = from; k < from + row; k++) {
      rows[to++] = bytes[k]! - (kind === filter.up && from > 0 ? bytes[k - row]! : 0)
    }
  }
  return rows
}
