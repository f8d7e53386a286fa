/**
 * Programs that look like prints, by a seed: layers of strokes, absolute or relative E, remarks and
 * retractions between them; now and then a line written oddly, and now and then a character that
 * something has put in the place of another. Heights lie on a grid of 0.05 mm, as in random-program.ts.
 */
import { mutators } from './random-program.ts'

/** Numbers from 0 up to 1 that look random: xorshift32. */
export const makeRandom = (seed: number): (() => number) => {
  // Small seeds would begin with small numbers.
  let state = Math.imul(seed, 0x9e3779b9) >>> 0 || 1
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return (state >>> 0) / 2 ** 32
  }
}

const between = [
  'G92 E0',
  '; infill',
  'M106 S127',
  'G1 E-0.8 F2400',
  'G1 E0.8 F2400',
  'G0 X10 Y10 F9000',
  'G1 F1800',
  'M204 S500',
  '',
  'G1 X5 Y7.5',
  'G1 X3.5 E0.01',
  'G1 Y3.5 E0.01',
  'G2 X5 Y5 I2 J1 E0.2',
  'G1 X1 Y1 E0.5 F1500',
  'G1 X1 Y1 Z0.3 E0.5',
  'M73 P5 R10',
  'EXCLUDE_OBJECT_START NAME=a',
]
const changes = [
  'M221 S95',
  'M221 S100',
  'M82',
  'M83',
  'T0',
  'T1',
  'G91',
  'G90',
  'M600',
  'G20',
  'G21',
  'G28',
  'M109 S200',
  'M200 D1.75',
  'G10',
  'G11',
  'M207 S0.8',
]
const characters = ' .-+0123456789EXYZFGMTN;(*\t\r:'

/** A program of about so many lines. */
export const printLike = (seed: number, lines: number): Uint8Array => {
  const random = makeRandom(seed)
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)] as T
  const calm = random()
  const absolute = random() < 0.5
  const decimals = pick([2, 3, 5, 5, 5, 8])
  const end = pick(['\n', '\n', '\n', '\r\n'])
  // Some places have more digits than the reader takes at once, and some programs no blanks.
  const placed = pick([0, 1, 3, 3, 3, 3, 4, 5, 6, 7])
  const blank = pick([' ', ' ', ' ', ' ', ''])
  const far = (): string => (random() * 200 - (calm < 0.2 ? 100 : 0)).toFixed(placed)
  const out = ['G28', absolute ? 'M82' : 'M83', 'G92 E0']
  let e = 0
  let layer = 0
  while (out.length < lines) {
    const chance = random()
    if (chance < 0.006) {
      layer += 1
      out.push(`G1 Z${(layer * 0.2).toFixed(2)} F600`)
      if (absolute && random() < 0.5) {
        out.push('G92 E0')
        e = 0
      }
    } else if (chance < 0.05) out.push(pick(between))
    else if (chance < 0.05 + 0.004 * calm) out.push(pick(changes))
    else {
      const feed = random() * 0.1
      e = absolute ? e + feed : feed
      out.push(`G1 X${far()}${blank}Y${far()} E${e.toFixed(decimals)}`)
    }
    const oddly = random()
    const last = out.length - 1
    if (oddly < 0.01 * calm) out[last] = pick(mutators)(out[last] as string)
    else if (oddly > 1 - 0.002 * calm) {
      const text = out[last] as string
      const at = Math.floor(random() * text.length)
      out[last] = text.slice(0, at) + pick(characters.split('')) + text.slice(at + 1)
    }
  }
  return new TextEncoder().encode(out.join(end) + (random() < 0.9 ? end : ''))
}
