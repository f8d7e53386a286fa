import { readFileSync } from 'node:fs'
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Silhouette, silhouetteOutline } from '../../src/print/index.ts'
import { program, toBytes } from './case.ts'
import { readDrawn } from './check-silhouette.ts'

/** A silhouette from text, highest row first; digits are bits. */
const from = (...rows: readonly string[]): Silhouette => ({
  axis: 'x',
  columns: rows[0]!.length,
  rows: rows.length,
  cell_mm: 0.5,
  row_mm: 0.25,
  left_mm: 10,
  bottom_mm: 0,
  bits: Uint8Array.from(
    rows.toReversed().flatMap((row) => Array.from(row, (cell) => Number.parseInt(cell, 10) || 0)),
  ),
})

describe('the outline', () => {
  test('of a cell', () => {
    expect(silhouetteOutline(from('1'))).toBe('M10 0H10.5V-0.25H10Z')
  })
  test('has corners only', () => {
    expect(silhouetteOutline(from('11.', '111'))).toBe('M10 0H11.5V-0.25H11V-0.5H10Z')
  })
  test('of a hole runs the other way', () => {
    expect(silhouetteOutline(from('111', '1.1', '111'))).toBe(
      'M10 0H11.5V-0.75H10ZM10.5 -0.25V-0.5H11V-0.25Z',
    )
  })
  test('keeps cells apart that touch at a corner', () => {
    const apart = 'M10 0H10.5V-0.25H10ZM10.5 -0.25H11V-0.5H10.5Z'
    expect(silhouetteOutline(from('.1', '1.'))).toBe(apart)
    expect(silhouetteOutline(from('1.', '.1'))).toBe(
      'M10.5 0H11V-0.25H10.5ZM10 -0.25H10.5V-0.5H10Z',
    )
  })
  test('of one tool, of another, of none', () => {
    const both = from('123')
    expect(silhouetteOutline(both, 1)).toBe('M10 0H10.5V-0.25H10ZM11 0H11.5V-0.25H11Z')
    expect(silhouetteOutline(both, 2)).toBe('M10.5 0H11.5V-0.25H10.5Z')
    expect(silhouetteOutline(both, 4)).toBe('')
  })

  test('fills exactly the cells, whatever they are', () => {
    const cells = fc
      .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }))
      .chain(([columns, rows]) =>
        fc.array(
          fc
            .array(fc.constantFrom('.', '1', '2'), { minLength: columns, maxLength: columns })
            .map((row) => row.join('')),
          { minLength: rows, maxLength: rows },
        ),
      )
    fc.assert(
      fc.property(cells, (rows) => {
        const silhouette = from(...rows)
        expect(cellsInside(silhouetteOutline(silhouette), silhouette)).toEqual(
          [...silhouette.bits].map((bits) => (bits === 0 ? 0 : 1)),
        )
      }),
      { seed: 20_261_125, numRuns: 300 },
    )
  })
})

/** How often a path winds round each cell's middle, by the walls to the right of it. */
const cellsInside = (path: string, silhouette: Silhouette): number[] => {
  const { columns, rows, cell_mm, row_mm, left_mm, bottom_mm } = silhouette
  const walls: { x: number; low: number; high: number; up: number }[] = []
  for (const loop of path.split('Z').filter((text) => text !== '')) {
    const [, startX, startY, rest] = /^M(\S+) ([-\d.]+)(.*)$/.exec(loop)!
    const start = { x: Number(startX), y: -Number(startY) }
    let corner = start
    const corners = [corner]
    for (const [, way, value] of rest!.matchAll(/([HV])([-\d.]+)/g)) {
      corner = way === 'H' ? { ...corner, x: Number(value) } : { ...corner, y: -Number(value) }
      corners.push(corner)
    }
    corners.push(start)
    corners.slice(1).forEach(({ x, y }, k) => {
      const before = corners[k]!
      expect(x === before.x || y === before.y).toBe(true)
      walls.push({
        x,
        low: Math.min(y, before.y),
        high: Math.max(y, before.y),
        up: Math.sign(y - before.y),
      })
    })
  }
  return Array.from({ length: rows * columns }, (_, at) => {
    const x = left_mm + ((at % columns) + 0.5) * cell_mm
    const y = bottom_mm + (Math.floor(at / columns) + 0.5) * row_mm
    return walls
      .filter((wall) => wall.x > x && wall.low < y && wall.high > y)
      .reduce((sum, wall) => sum + wall.up, 0)
  })
}

/** An arched bridge on a plinth, its railing by another tool. */
const bridge = (): string => {
  const lines = ['M83']
  const bar = (from_mm: number, to_mm: number): void => {
    lines.push(`G0 X${from_mm.toFixed(2)} Y0`, `G1 X${to_mm.toFixed(2)} E1`)
  }
  for (let layer = 1; layer <= 40; layer++) {
    const height = layer * 0.25
    lines.push(`G1 Z${height}`)
    const open = height > 1 && height < 7 ? 9 * Math.sqrt(1 - ((height - 1) / 6) ** 2) : 0
    if (height > 8) {
      lines.push('T1')
      for (let post = 0; post < 5; post++) bar(1 + post * 6.9, 1.9 + post * 6.9)
      if (height > 9.4) bar(1, 29.5)
      lines.push('T0')
    } else if (open === 0) bar(0, 30)
    else {
      bar(0, 15 - open)
      bar(15 + open, 30)
    }
  }
  return program(...lines)
}

test('a bridge looks as committed', () => {
  const { silhouette } = readDrawn([toBytes(bridge())])!
  const { left_mm, columns, cell_mm, rows, row_mm } = silhouette!
  const [width, height] = [columns * cell_mm, rows * row_mm]
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${left_mm} ${-height} ${width} ${height}" width="${width * 12}" height="${height * 12}">`,
    `<path fill="#444" d="${silhouetteOutline(silhouette!, 1)}"/>`,
    `<path fill="#b55" d="${silhouetteOutline(silhouette!, 2)}"/>`,
    '</svg>',
    '',
  ].join('\n')
  expect(svg).toBe(readFileSync(new URL('silhouette-bridge.svg', import.meta.url), 'utf8'))
})
