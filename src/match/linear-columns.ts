import type { LinearModel } from './linear-solver.ts'

/** A number of a linear program being written down, a whole one from 0 on. */
export interface LinearColumn {
  readonly cost: number
  readonly upper: number
  /** False for one that need not be whole. */
  readonly whole?: boolean
  readonly entries: readonly (readonly [row: number, value: number])[]
}

/** The program of some columns; each has a row at most once. */
export const modelOf = (
  columns: readonly LinearColumn[],
  rowLower: Float64Array,
  rowUpper: Float64Array,
): LinearModel => {
  const size = columns.reduce((sum, { entries }) => sum + entries.length, 0)
  const starts = new Int32Array(columns.length + 1)
  const rows = new Int32Array(size)
  const values = new Float64Array(size)
  let at = 0
  for (const [i, { entries }] of columns.entries()) {
    starts[i] = at
    for (const [row, value] of entries) {
      rows[at] = row
      values[at++] = value
    }
  }
  starts[columns.length] = at
  return {
    cost: Float64Array.from(columns, ({ cost }) => cost),
    lower: new Float64Array(columns.length),
    upper: Float64Array.from(columns, ({ upper }) => upper),
    whole: Uint8Array.from(columns, ({ whole = true }) => Number(whole)),
    rowLower,
    rowUpper,
    starts,
    rows,
    values,
  }
}
