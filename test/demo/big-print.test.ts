import { createHash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { type BigPrintOptions, type BigPrintTruth, bigPrint } from '../../demo/big-print.ts'
import { tally } from './tally.ts'

const collect = (
  bytes: number,
  options: BigPrintOptions = {},
): { text: string; truth: BigPrintTruth; chunks: number[] } => {
  const chunks = bigPrint(bytes, options)
  const parts: Uint8Array[] = []
  let next = chunks.next()
  while (next.done !== true) {
    parts.push(next.value)
    next = chunks.next()
  }
  const text = new TextDecoder().decode(Buffer.concat(parts))
  return { text, truth: next.value, chunks: parts.map((part) => part.length) }
}

const digest = (seed: number): string =>
  createHash('sha256').update(collect(1_000_000, { seed }).text).digest('hex')

describe.each(['relative', 'absolute'] as const)('%s E', (eMode) => {
  const { text, truth, chunks } = collect(3_000_000, { eMode })

  test('E words add up to the truth', () => {
    const read = tally(text)
    expect(read.peak.get(0)).toBeCloseTo(truth.peak_mm, 5)
    expect(read.net.get(0)).toBeCloseTo(truth.net_mm, 5)
    expect(read.layers).toBe(truth.layers)
    expect(read.top_mm).toBeCloseTo(truth.height_mm, 9)
  })

  test('paths carry a bead of 0.45 mm by 0.2 mm', () => {
    const fed = truth.peak_mm - truth.startMacro_mm
    const bead_mm2 = (fed * (Math.PI / 4) * 1.75 ** 2) / tally(text).path_mm
    expect(bead_mm2).toBeCloseTo(0.09, 5)
  })

  test('lines are 28 to 32 bytes long in the mean', () => {
    const lines = text.split('\n').length - 1
    expect(text.length / lines).toBeGreaterThan(28)
    expect(text.length / lines).toBeLessThan(32)
  })

  test('comes in chunks that do not grow', () => {
    expect(chunks.length).toBeGreaterThan(5)
    expect(Math.max(...chunks)).toBeLessThan(400_000)
  })

  test('every line is one of few kinds', () => {
    const bead = /^G1 X\d+\.\d{3} Y\d+\.\d{3} E-?\d+\.\d{5}$/
    const other =
      /^(;.*|[GMT][0-9]+|G0 Z[\d.]+|G0 X[\d.]+ Y[\d.]+ F9000|G1 E-?[\d.]+ F2400|G1 F\d+|G92 E0|M10[4679] S\d+|M1[49]0 S\d+|G1 X5.*)$/
    const strange = text.split('\n').filter((line) => line && !bead.test(line) && !other.test(line))
    expect(strange).toEqual([])
  })
})

test.each([1000, 1001, 1048, 1500, 20_000, 300_001, 1_234_567])(
  '%i bytes are met exactly, and the truth holds wherever the print is cut',
  (bytes) => {
    for (const eMode of ['relative', 'absolute'] as const) {
      const { text, truth } = collect(bytes, { eMode })
      expect(text.length).toBe(bytes)
      expect(truth.bytes).toBe(bytes)
      const read = tally(text)
      expect(read.peak.get(0)).toBeCloseTo(truth.peak_mm, 5)
      expect(read.net.get(0)).toBeCloseTo(truth.net_mm, 5)
      expect(read.layers).toBe(truth.layers)
    }
  },
)

test('below the length of its macros the print is the macros', () => {
  const { text, truth } = collect(10)
  expect(truth).toMatchObject({ layers: 0, peak_mm: 15, bytes: text.length })
})

test('the same seed gives the same bytes, another seed others', () => {
  expect(digest(7)).toBe(digest(7))
  expect(digest(7)).not.toBe(digest(8))
})
