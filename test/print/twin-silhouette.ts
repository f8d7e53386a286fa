/**
 * The slow twin of the silhouette: bounds first, which give the size of cells, then every cell by
 * itself is asked whether a stroke passes it. Written to be compared with docs/method/silhouette.md.
 */
import { arcPoints } from '../../src/print/arc-points.ts'
import type { ArcPoint, Silhouette } from '../../src/print/index.ts'
import type { Stroke } from './twin-layers.ts'

const across = 256
const far = 2 ** 40

/** A straight way seen from the side: u along the view, v up; from the lower end to the upper. */
interface Way {
  readonly u0: number
  readonly v0: number
  readonly u1: number
  readonly v1: number
  readonly bit: number
}

/** The points of a stroke, an arc's chords among them. */
export const pointsOf = ({ from, to, command, i, j, r }: Stroke): readonly ArcPoint[] => {
  if (command !== 'G2' && command !== 'G3') return [from, to]
  const clockwise = command === 'G2'
  if (i !== undefined || j !== undefined) {
    return arcPoints({ from, to, clockwise, about: { i: i ?? 0, j: j ?? 0 } })
  }
  return r === undefined ? [from, to] : arcPoints({ from, to, clockwise, about: { radius: r } })
}

const isPlace = ({ x, y, z }: ArcPoint): boolean =>
  x >= -far && x < far && y >= -far && y < far && z > -far && z <= far

const waysOf = (strokes: readonly Stroke[], axis: 'x' | 'y'): Way[] =>
  strokes.flatMap((stroke) => {
    const points = pointsOf(stroke)
    return points.slice(1).flatMap((to, at): Way[] => {
      const from = points[at]!
      if (!isPlace(from) || !isPlace(to)) return []
      const [low, high] = from.z <= to.z ? [from, to] : [to, from]
      const bit = 2 ** Math.min(7, stroke.tool)
      return [{ u0: low[axis], v0: low.z, u1: high[axis], v1: high.z, bit }]
    })
  })

const least = (values: readonly number[]): number =>
  values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY)
const most = (values: readonly number[]): number => -least(values.map((value) => -value))

const rowOf = (v: number, size: number): number => Math.ceil(v / size) - 1

interface Grid {
  readonly cell: number
  readonly row: number
  readonly left: number
  readonly right: number
  readonly bottom: number
  readonly top: number
}

/** The smallest cells of which 256 are enough, and rows no lower than a step. */
const gridOf = (ways: readonly Way[], step: number): Grid => {
  const us = ways.flatMap(({ u0, u1 }) => [u0, u1])
  const vs = ways.flatMap(({ v0, v1 }) => [v0, v1])
  let cell = 1 / 8
  while (Math.floor(most(us) / cell) - Math.floor(least(us) / cell) + 1 > across) cell *= 2
  let row = 1 / 32
  const bottom = (): number => Math.min(0, rowOf(least(vs), row))
  const top = (): number => Math.max(-1, rowOf(most(vs), row))
  while (top() - bottom() + 1 > across || row < Math.min(step, far)) row *= 2
  return {
    cell,
    row,
    left: Math.floor(least(us) / cell),
    right: Math.floor(most(us) / cell),
    bottom: bottom(),
    top: top(),
  }
}

/** Where a way is when it passes a height that it does reach. */
const at = ({ u0, v0, u1, v1 }: Way, v: number): number => {
  const u = u0 + (v - v0) * ((u1 - u0) / (v1 - v0))
  return Math.min(Math.max(u0, u1), Math.max(Math.min(u0, u1), u))
}

const passes = (way: Way, column: number, row: number, { cell, row: height }: Grid): boolean => {
  const enters = way.v0 > row * height ? way.u0 : at(way, row * height)
  const leaves = way.v1 <= (row + 1) * height ? way.u1 : at(way, (row + 1) * height)
  return Math.max(enters, leaves) >= column * cell && Math.min(enters, leaves) < (column + 1) * cell
}

const cellsOf = (ways: readonly Way[], grid: Grid): Uint8Array => {
  const columns = grid.right - grid.left + 1
  const bits = new Uint8Array(columns * (grid.top - grid.bottom + 1))
  for (const way of ways) {
    const first = Math.floor(Math.min(way.u0, way.u1) / grid.cell)
    const last = Math.floor(Math.max(way.u0, way.u1) / grid.cell)
    for (let row = rowOf(way.v0, grid.row); row <= rowOf(way.v1, grid.row); row++) {
      for (let column = first; column <= last; column++) {
        if (!passes(way, column, row, grid)) continue
        bits[(row - grid.bottom) * columns + column - grid.left]! |= way.bit
      }
    }
  }
  return bits
}

const filled = (bits: Uint8Array, columns: number): Uint8Array => {
  const rows = Array.from({ length: bits.length / columns }, (_, row) =>
    bits.subarray(row * columns, (row + 1) * columns),
  )
  const held = (row: number): Uint8Array =>
    rows.slice(row).find((cells) => cells.some((cell) => cell > 0)) ?? rows[row]!
  const out = new Uint8Array(bits.length)
  for (const row of rows.keys()) out.set(held(row), row * columns)
  return out
}

/** @param step - usual step between layers, mm */
export const twinSilhouette = (strokes: readonly Stroke[], step: number): Silhouette | null => {
  const views = (['x', 'y'] as const).map((axis) => {
    const ways = waysOf(strokes, axis)
    const grid = gridOf(ways, step)
    return { axis, ways, grid, width: (grid.right - grid.left + 1) * grid.cell }
  })
  const [x, y] = views as [(typeof views)[number], (typeof views)[number]]
  if (x.ways.length === 0) return null
  const { axis, ways, grid } = y.width > x.width ? y : x
  const columns = grid.right - grid.left + 1
  return {
    axis,
    columns,
    rows: grid.top - grid.bottom + 1,
    cell_mm: grid.cell,
    row_mm: grid.row,
    left_mm: grid.left * grid.cell,
    bottom_mm: grid.bottom * grid.row,
    bits: filled(cellsOf(ways, grid), columns),
  }
}
