import { describe, expect, test } from 'vitest'
import { Coverage } from '../../src/picture/coverage.ts'
import { type Drawing, lettersWide, pixelsOf } from '../../src/picture/index.ts'
import { letterStrokes } from '../../src/picture/letter-strokes.ts'
import { dashes, pathLines } from '../../src/picture/path-lines.ts'
import { placedPath } from '../../src/picture/placed-path.ts'

const sum = ({ of }: Coverage): number => of.reduce((total, each) => total + each, 0)
const rectangle = (left: number, top: number, right: number, bottom: number): number[] =>
  [left, top, right, top, right, bottom].concat(left, bottom, left, top)

/** Length of a line. */
const lengthOf = (line: readonly number[]): number => {
  let total = 0
  for (let k = 2; k < line.length; k += 2) {
    total += Math.hypot(line[k]! - line[k - 2]!, line[k + 1]! - line[k - 1]!)
  }
  return total
}

/** Where the first letter of "mm" begins. */
const leftEdge = (anchor: 'start' | 'middle' | 'end'): number =>
  letterStrokes('mm', { x: 50, y: 0, size: 12, anchor })[0]![0]!

describe('filling', () => {
  test.each([
    [2, 3, 7, 9, 30],
    [2.25, 3.5, 7.75, 9.25, 5.5 * 5.75],
    [4.1, 4.2, 4.3, 4.9, 0.2 * 0.7],
    [-5, -5, 3, 2, 6],
    [30, 30, 40, 40, 0],
  ])('of %d %d to %d %d covers its area', (left, top, right, bottom, area) => {
    const coverage = new Coverage(20, 20)
    coverage.enclose([rectangle(left, top, right, bottom)])
    // Rows are sampled at eight heights.
    expect(Math.abs(sum(coverage) - area)).toBeLessThanOrEqual((right - left) / 8)
  })

  test('leaves a hole out, whichever way it runs', () => {
    for (const hole of [rectangle(4, 4, 6, 6), rectangle(6, 4, 4, 6)]) {
      const coverage = new Coverage(20, 20)
      coverage.enclose([rectangle(2, 2, 10, 10), hole])
      expect(sum(coverage)).toBeCloseTo(64 - 4, 6)
    }
  })

  test('of a triangle, by the shoelace formula', () => {
    const coverage = new Coverage(40, 40)
    coverage.enclose([[3, 4, 35, 11, 17, 33, 3, 4]])
    const area = Math.abs(3 * (11 - 33) + 35 * (33 - 4) + 17 * (4 - 11)) / 2
    expect(sum(coverage)).toBeCloseTo(area, 0)
  })

  test('can be kept between two heights', () => {
    const coverage = new Coverage(20, 20)
    coverage.enclose([rectangle(0, 0, 10, 20)])
    coverage.keepBetween(4.5, 8)
    expect(sum(coverage)).toBeCloseTo(35, 4)
  })
})

describe('a line', () => {
  test.each([
    [[10, 10, 50, 10], 3],
    [[10, 10, 50, 40], 3],
    [[12.3, 44.1, 50.2, 8.8], 1.5],
  ] as const)('%j covers about its length times its width, and two half discs', (line, width) => {
    const coverage = new Coverage(60, 60)
    coverage.stroke(line, width)
    const long = Math.hypot(line[2] - line[0], line[3] - line[1])
    const area = long * width + (Math.PI / 4) * width ** 2
    expect(sum(coverage) / area).toBeGreaterThan(0.93)
    expect(sum(coverage) / area).toBeLessThan(1.1)
  })

  test('drawn twice is no darker, and clearing leaves nothing', () => {
    const coverage = new Coverage(60, 60)
    coverage.stroke([5, 5, 50, 50], 2)
    const once = sum(coverage)
    coverage.stroke([5, 5, 50, 50], 2)
    expect(sum(coverage)).toBe(once)
    coverage.clear()
    expect(sum(coverage)).toBe(0)
  })
})

describe('dashes', () => {
  test('along a line', () => {
    expect(dashes([[0, 0, 10, 0]], [3, 2])).toEqual([
      [0, 0, 3, 0],
      [5, 0, 8, 0],
    ])
  })
  test('go on around corners', () => {
    const cut = dashes([rectangle(0, 0, 10, 7)], [4, 1])
    expect(cut.reduce((total, line) => total + lengthOf(line), 0)).toBeCloseTo(6 * 4 + 4, 9)
    expect(cut[2]).toEqual([10, 0, 10, 4])
  })
})

test('a path in its place, and as lines', () => {
  const d = placedPath('M1 2H3V4Z', { x: 10, y: 20, scale: 2 })
  expect(d).toBe('M12 24H16V28Z')
  expect(placedPath('M-0.125 1e-7V-3', { x: 0, y: 1, scale: 8 })).toBe('M-1 1V-23')
  expect(pathLines({ d: `${d}M0 0L1 1` })).toEqual([
    [12, 24, 16, 24, 16, 28, 12, 24],
    [0, 0, 1, 1],
  ])
})

describe('letters', () => {
  test('every printable one has strokes of its own, a space has none', () => {
    const seen = new Set<string>()
    for (let code = 33; code <= 126; code++) {
      const strokes = letterStrokes(String.fromCharCode(code), {
        x: 0,
        y: 0,
        size: 20,
        anchor: 'start',
      })
      expect(strokes.length, String.fromCharCode(code)).toBeGreaterThan(0)
      seen.add(JSON.stringify(strokes))
    }
    // Capital I and small l are one stroke each, and alike.
    expect(seen.size).toBe(93)
    expect(letterStrokes(' ', { x: 0, y: 0, size: 20, anchor: 'start' })).toEqual([])
  })

  test('capitals stand on their line and are as high as those of a typeface', () => {
    const ys = letterStrokes('HE', { x: 0, y: 100, size: 20, anchor: 'start' })
      .flat()
      .filter((_, k) => k % 2 === 1)
    expect(Math.max(...ys)).toBeCloseTo(100, 9)
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(20 * 0.72, 9)
  })

  test('anchors', () => {
    const wide = lettersWide('mm', 12)
    expect(leftEdge('start') - leftEdge('middle')).toBeCloseTo(wide / 2, 9)
    expect(leftEdge('start') - leftEdge('end')).toBeCloseTo(wide, 9)
  })

  test('what there is no letter for stands as an empty box', () => {
    expect(lettersWide('漢', 12)).toBe(lettersWide('é', 12))
    expect(lettersWide('±', 12)).not.toBe(lettersWide('é', 12))
  })
})

test('shapes lie on one another in their order, in the colours of the paper', () => {
  const drawing: Drawing = {
    width: 10,
    height: 10,
    said: '',
    shapes: [
      { kind: 'path', ink: 'filament', d: 'M0 0H10V10H0Z', fill: '#ff0000' },
      { kind: 'path', ink: 'filament', d: 'M0 0H5V10H0Z', fill: '#0000ff' },
      {
        kind: 'path',
        ink: 'filament',
        d: 'M0 0H10V10H0Z',
        fill: '#00ff00',
        between: { top: 5, bottom: 99 },
      },
    ],
  }
  const { width, height, rgb } = pixelsOf(drawing, 1)
  expect([width, height]).toEqual([10, 10])
  const at = (x: number, y: number): readonly number[] => [
    ...rgb.subarray(3 * (y * 10 + x), 3 * (y * 10 + x) + 3),
  ]
  expect([at(1, 1), at(8, 1), at(1, 8), at(8, 8)]).toEqual([
    [0, 0, 255],
    [255, 0, 0],
    [0, 255, 0],
    [0, 255, 0],
  ])
  expect([...pixelsOf({ ...drawing, shapes: [] }, 1).rgb.subarray(0, 3)]).toEqual([
    0xf7, 0xf2, 0xe6,
  ])
})
