import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { bigPrint } from '../../demo/big-print.ts'
import { PrintReader, RangeReader, type ReadOptions } from '../../src/print/index.ts'
import { digest, readFast } from './fast-reading.ts'
import { readInRanges } from './read-in-ranges.ts'

const encode = (...lines: readonly string[]): Uint8Array =>
  new TextEncoder().encode(`${lines.join('\n')}\n`)

/** Reads in ranges, expects the very same outcome, and says which share was folded. */
const foldedOf = (
  bytes: Uint8Array,
  cuts: readonly number[],
  options: ReadOptions = {},
  slice?: number,
): number => {
  const { outcome, folded } = readInRanges(bytes, cuts, options, slice)
  expect(digest(outcome)).toBe(digest(readFast(bytes, options)))
  return folded / bytes.length
}

/** Strokes on rising heights. */
const strokes = (layers: number, each: number, line: (at: number) => string): string[] =>
  Array.from({ length: layers }, (_, layer) => [
    `G1 Z${((layer + 1) * 0.2).toFixed(2)} F600`,
    ...Array.from({ length: each }, (__, at) => line(layer * each + at)),
  ]).flat()

const relative = (at: number): string => `G1 X${at % 97}.5 Y${at % 13} E0.0${1 + (at % 9)}`

describe('ranges read apart and folded are the file read in order', () => {
  test.each(['relative', 'absolute'] as const)('a generated print, %s E', (eMode) => {
    const bytes = new Uint8Array(Buffer.concat([...bigPrint(3_000_000, { eMode })]))
    expect(foldedOf(bytes, [1_000_000, 2_000_000])).toBeGreaterThan(0.4)
    expect(foldedOf(bytes, [700_001, 700_002, 1_500_003])).toBeGreaterThan(0.4)
  })

  test('from a retraction on: the draw goes on where it was', () => {
    const head = encode('G28', 'M83', ...strokes(3, 50, relative), 'G1 E-5')
    const rest = encode('G1 X3 Y3', ...strokes(9, 50, relative))
    const bytes = new Uint8Array([...head, ...rest])
    expect(foldedOf(bytes, [head.length], {}, 400)).toBeGreaterThan(0.5)
  })

  test('where a mode changes in the range, before it and back again', () => {
    const head = ['G28', 'M83', ...strokes(3, 50, relative)]
    const rest = [
      ...strokes(3, 50, relative),
      'M221 S95',
      ...strokes(2, 50, relative),
      'M221 S100',
      ...strokes(6, 50, relative),
    ]
    const bytes = encode(...head, ...rest)
    expect(foldedOf(bytes, [encode(...head).length], {}, 400)).toBeGreaterThan(0.3)
  })

  test('what was thought to hold does not: the range is read in order', () => {
    // Where the head ends the flow is 1; before the range begins it is 0.9.
    const head = encode('G28', 'M83', ...strokes(3, 50, relative))
    const between = encode('M221 S90')
    const rest = encode(...strokes(9, 50, relative))
    const bytes = new Uint8Array([...head, ...between, ...rest])
    const ranges = new RangeReader()
    ranges.head(head)
    const from = head.length + between.length
    ranges.begin(from)
    for (let at = from; at < bytes.length; at += 400) ranges.push(bytes.subarray(at, at + 400))
    const log = ranges.finish()
    if (log === null) throw new Error('nothing was noted')
    const reader = new PrintReader()
    reader.push(bytes.subarray(0, log.from))
    expect(reader.fold(log)).toBe(log.from)
    reader.push(bytes.subarray(log.from))
    expect(digest(reader.finish())).toBe(digest(readFast(bytes)))
  })

  test('a log is not taken elsewhere than where it begins', () => {
    const bytes = encode('G28', 'M83', ...strokes(9, 100, relative))
    const ranges = new RangeReader()
    ranges.head(bytes.subarray(0, 2000))
    ranges.begin(4000)
    for (let at = 4000; at < bytes.length; at += 400) ranges.push(bytes.subarray(at, at + 400))
    const log = ranges.finish()
    if (log === null) throw new Error('nothing was noted')
    const reader = new PrintReader()
    reader.push(bytes.subarray(0, 3000))
    expect(reader.fold(log)).toBe(3000)
    reader.push(bytes.subarray(3000))
    expect(digest(reader.finish())).toBe(digest(readFast(bytes)))
  })

  test('files that can not be read so are read in order', () => {
    const loop = encode('G28', 'M83', ...strokes(2, 50, relative), 'M808 L3', 'G1 X1 E1', 'M808')
    expect(foldedOf(loop, [400, 1500], {}, 200)).toBeLessThan(0.9)
    const lone = new TextEncoder().encode(['G28', 'M83', ...strokes(3, 50, relative)].join('\r'))
    expect(foldedOf(lone, [400, 1500], {}, 200)).toBe(0)
    const handed = encode('G28', 'G91', 'M83', ...strokes(3, 50, relative))
    expect(foldedOf(handed, [400, 1500], {}, 200)).toBe(0)
  })

  test('a refusal within a range is the same refusal', () => {
    const bytes = encode('G28', 'M83', ...strokes(9, 50, relative), 'G1 X5 E', 'G1 X4 E1')
    foldedOf(bytes, [2000, 6000], {}, 400)
  })
})

const folder = new URL('../../../shared/prints/', import.meta.url)
const prints = existsSync(folder)
  ? readdirSync(folder).filter((name) => name.endsWith('.gcode'))
  : []

describe.skipIf(prints.length === 0)(
  'real prints (skipped where the folder of prints is absent)',
  () => {
    test.each(prints)('%s', (name) => {
      const bytes = readFileSync(new URL(name, folder))
      const at = (share: number): number => Math.floor(share * bytes.length)
      foldedOf(bytes, [at(0.3), at(0.6)])
      foldedOf(bytes, [at(0.21), at(0.4), at(0.77)], {}, 5000)
    })
  },
)
