import { existsSync, readdirSync, readFileSync } from 'node:fs'
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Silhouette } from '../../src/print/index.ts'
import { program, toBytes } from './case.ts'
import { cases } from './cases.ts'
import { asText, checkSilhouette, readDrawn, sameSilhouette } from './check-silhouette.ts'
import { hostileCases } from './hostile.ts'
import { randomOptions, randomProgram } from './random-program.ts'
import { silhouetteCases } from './silhouette-cases.ts'
import { twinStrokes } from './twin.ts'
import type { Stroke } from './twin-layers.ts'
import { twinSilhouette } from './twin-silhouette.ts'

const seed = 20_261_125

/** @param everyCut - inputs up to this length are cut at every byte, others at a dozen */
const checkCuts = (bytes: Uint8Array, everyCut = 400): void => {
  const whole = readDrawn([bytes])?.silhouette ?? null
  const step = bytes.length > everyCut ? Math.ceil(bytes.length / 12) : 1
  for (let at = 0; at <= bytes.length; at += step) {
    const cut = readDrawn([bytes.subarray(0, at), bytes.subarray(at)])?.silhouette ?? null
    if (!sameSilhouette(cut, whole)) expect(asText(cut), `cut at ${at}`).toBe(asText(whole))
  }
}

describe('silhouettes drawn by hand', () => {
  test.each(silhouetteCases)('$name', ({ code, options, drawn }) => {
    const bytes = toBytes(code)
    expect(asText(checkSilhouette(bytes, options))).toBe(drawn.join('\n'))
    checkCuts(bytes)
  })
})

test('without being asked for there is none, and nothing else is different', () => {
  for (const { name, code, options } of cases) {
    const drawn = readDrawn([toBytes(code)], options)
    const plain = readDrawn([toBytes(code)], { ...options, silhouette: false })
    expect(drawn === null, name).toBe(false)
    expect({ ...drawn, silhouette: null }, name).toEqual({ ...plain, silhouette: null })
  }
})

/** A relative program's silhouette but for its cells. */
const grid = (...lines: readonly string[]): unknown => {
  const silhouette = checkSilhouette(toBytes(program('M83', ...lines)))
  if (silhouette === null) return null
  const { bits, ...rest } = silhouette
  expect(bits.length).toBe(rest.columns * rest.rows)
  return rest
}
const bars = (...heights: readonly number[]): string[] =>
  heights.flatMap((height) => [`G1 Z${height}`, 'G1 X1 E1', 'G1 X0 E1'])

describe('sizes', () => {
  test('cells double when 256 are not enough', () => {
    const start = ['G1 Z0.25', 'G1 X0.1 E1']
    expect(grid(...start, 'G1 X31.99 E1')).toMatchObject({ columns: 256, cell_mm: 0.125 })
    expect(grid(...start, 'G1 X32 E1')).toMatchObject({ columns: 129, cell_mm: 0.25 })
    expect(grid(...start, 'G1 X-0.01 E1', 'G1 X31.99 E1')).toMatchObject({
      columns: 129,
      cell_mm: 0.25,
      left_mm: -0.25,
    })
    expect(grid(...bars(0.25, 0.5, 64))).toMatchObject({ rows: 256, row_mm: 0.25 })
    expect(grid(...bars(0.25, 0.5, 64.25))).toMatchObject({ rows: 129, row_mm: 0.5 })
    expect(grid(...bars(0.05, 0.1))).toMatchObject({ rows: 2, row_mm: 0.0625 })
  })

  test('a thousand kilometres', () => {
    // 2²² mm is the least power of two of which 256 hold 10⁹ mm.
    expect(grid('G1 X1000000000 Z0.2 E1')).toMatchObject({ columns: 239, cell_mm: 2 ** 22 })
    expect(grid('G1 X1 Z1000000000 E1', 'G1 X2 Z-999999999 E1')).toMatchObject({
      rows: 240,
      row_mm: 2 ** 23,
    })
    expect(grid('G1 X999999999 Z0.2', 'G1 X1000000000 E1')).toMatchObject({
      columns: 9,
      left_mm: 999_999_999,
    })
  })

  test('places beyond 2⁴⁰ mm are none, with numbers of any length', () => {
    expect(grid(`G1 X1${'0'.repeat(13)} Z0.2 E1`)).toBeNull()
    expect(grid(`G1 X1${'0'.repeat(400)} Z0.2 E1`)).toBeNull()
    expect(
      grid('G91', 'M83', ...Array(4).fill(`G1 X9${'0'.repeat(307)} E1`), 'G1 X5 E1'),
    ).toBeNull()
    expect(grid(`G1 X1${'0'.repeat(13)} Z0.2 E1`, 'G1 X1', 'G1 X2 E1')).toMatchObject({
      columns: 9,
      left_mm: 1,
    })
    // An edge of the range: a column holds its left edge, a row its upper one.
    const edge = 2 ** 40
    expect(grid(`G1 X${edge} E1`)).toBeNull()
    expect(grid(`G1 X-${edge} E1`)).toMatchObject({ left_mm: -edge, cell_mm: 2 ** 33 })
  })
})

describe('reader and twin draw the same', () => {
  test('all cases of the tables, however they are cut', () => {
    const drawn = [...cases, ...hostileCases].filter(({ code, options }) => {
      const bytes = toBytes(code)
      if (bytes.length > 200_000) return false
      const silhouette = checkSilhouette(bytes, options)
      // The test of the cases cuts them at every byte; a dozen places are enough for what is drawn.
      if (silhouette !== null) checkCuts(bytes, 0)
      return silhouette !== null
    })
    expect(drawn.length).toBeGreaterThan(150)
  })

  test('random programs', () => {
    let drawn = 0
    fc.assert(
      fc.property(randomProgram, randomOptions, (bytes, options) => {
        if (checkSilhouette(bytes, options) !== null) drawn += 1
      }),
      { seed, numRuns: 400 },
    )
    expect(drawn).toBeGreaterThan(200)
  })

  test('random ways over all sizes, in any order', () => {
    fc.assert(
      fc.property(randomWays, (bytes) => {
        expect(checkSilhouette(bytes)).not.toBeNull()
      }),
      { seed, numRuns: 300 },
    )
  })
})

/** Straight ways and arcs from crumbs to mountains, flat, climbing and falling. */
const length = fc
  .tuple(fc.integer({ min: -9999, max: 9999 }), fc.integer({ min: -3, max: 5 }))
  .map(([digits, power]) => (digits * 10 ** power).toFixed(3))
const near = fc.integer({ min: -800, max: 2400 }).map((eighths) => (eighths / 8).toFixed(3))
const place = fc.oneof({ weight: 8, arbitrary: near }, { weight: 1, arbitrary: length })
const height = fc.oneof(
  { weight: 8, arbitrary: fc.integer({ min: 0, max: 900 }).map((k) => (k / 32).toFixed(5)) },
  { weight: 1, arbitrary: length },
)
const way = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.tuple(place, place).map(([x, y]) => `G1 X${x} Y${y} E1`),
  },
  { weight: 3, arbitrary: height.map((z) => `G1 Z${z}`) },
  {
    weight: 3,
    arbitrary: fc.tuple(place, place, height).map(([x, y, z]) => `G1 X${x} Y${y} Z${z} E1`),
  },
  {
    weight: 2,
    arbitrary: fc.tuple(near, near).map(([i, j]) => `G2 I${i} J${j} E1`),
  },
  {
    weight: 1,
    arbitrary: fc.tuple(near, near, near).map(([x, y, r]) => `G3 X${x} Y${y} R${r} F900 E1`),
  },
  { weight: 1, arbitrary: fc.integer({ min: 0, max: 9 }).map((tool) => `T${tool}`) },
)
const randomWays = fc
  .array(way, { minLength: 1, maxLength: 60 })
  .map((lines) => toBytes(program('M83', ...lines, 'G1 X1 Y1 E1', 'G1 X2 E1')))

describe('what a cell is', () => {
  test('it is one that many points of the strokes lie in', () => {
    const bytes = toBytes(
      program(
        'M83',
        'G1 X3 Y7 Z0.01',
        'G1 X58.37 Z21.1 E5',
        'G1 X11.61 Z39.7 E5',
        'G1 Z30',
        'G1 X25 E1',
      ),
    )
    const { columns, bits, cell_mm, row_mm, left_mm, bottom_mm } = readDrawn([bytes])!.silhouette!
    const hit = new Uint8Array(bits.length)
    for (const [x, z] of twinStrokes(bytes).flatMap(along)) {
      const column = Math.floor((x - left_mm) / cell_mm)
      const row = Math.ceil((z - bottom_mm) / row_mm) - 1
      hit[row * columns + column] = 1
    }
    expect([...hit]).toEqual([...bits])
  })

  test('a stroke more is seen', () => {
    const bytes = toBytes(program('M83', 'G1 X5 Z1 E1', 'G1 X9 Z9 E1'))
    const strokes = twinStrokes(bytes)
    expect(sameSilhouette(readDrawn([bytes])!.silhouette, twinSilhouette(strokes, 0.2))).toBe(true)
    const less = twinSilhouette(strokes.slice(1), 0.2)
    expect(sameSilhouette(readDrawn([bytes])!.silhouette, less)).toBe(false)
  })
})

/** Many points along a straight way in X and Z. */
const along = ({ from, to }: Stroke): (readonly [number, number])[] =>
  Array.from({ length: 200_001 }, (_, k) => [
    from.x + ((to.x - from.x) * k) / 200_000,
    from.z + ((to.z - from.z) * k) / 200_000,
  ])

const folder = new URL('../../../shared/prints/', import.meta.url)
const here = existsSync(folder)
const prints = here ? readdirSync(folder).filter((name) => name.endsWith('.gcode')) : []

describe.skipIf(!here)('real prints (skipped where the folder of prints is absent)', () => {
  test.each(prints)('%s', (name) => {
    const bytes = readFileSync(new URL(name, folder))
    const strokes = twinStrokes(bytes)
    const silhouette = checkSilhouette(bytes, {}, strokes) as Silhouette
    const ends = strokes.flatMap(({ from, to }) => [from, to])
    const bounds = (axis: 'x' | 'y' | 'z'): readonly [number, number] => [
      ends.reduce((low, end) => Math.min(low, end[axis]), Number.POSITIVE_INFINITY),
      ends.reduce((high, end) => Math.max(high, end[axis]), Number.NEGATIVE_INFINITY),
    ]
    const [left, right] = bounds(silhouette.axis)
    const { left_mm, columns, cell_mm, bottom_mm, rows, row_mm, bits } = silhouette
    // Ends of moves: an arc may reach farther, and the files have small ones only.
    expect(Math.abs(left - left_mm)).toBeLessThanOrEqual(cell_mm)
    expect(Math.abs(left_mm + columns * cell_mm - right)).toBeLessThanOrEqual(cell_mm)
    expect(bottom_mm).toBe(0)
    expect(Math.abs(rows * row_mm - bounds('z')[1])).toBeLessThanOrEqual(row_mm)
    // Nothing floats, and nothing is left out between layers.
    for (let row = 0; row < rows; row++) {
      expect(bits.subarray(row * columns, (row + 1) * columns).some((cell) => cell > 0)).toBe(true)
    }
    let at = 0
    const slices: Uint8Array[] = []
    while (at < bytes.length) slices.push(bytes.subarray(at, (at += 4099)))
    expect(sameSilhouette(readDrawn(slices)!.silhouette, silhouette)).toBe(true)
  })
})
