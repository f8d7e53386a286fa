import { expect } from 'vitest'
import {
  type PrintReading,
  type ReadOptions,
  readPrint,
  type Silhouette,
} from '../../src/print/index.ts'
import { twinStrokes } from './twin.ts'
import type { LaidStroke } from './twin-layers.ts'
import { twinSilhouette } from './twin-silhouette.ts'

/** The reading with its silhouette; null where the print is refused. */
export const readDrawn = (
  slices: readonly Uint8Array[],
  options: ReadOptions = {},
): PrintReading | null => {
  const outcome = readPrint(slices, { ...options, silhouette: true })
  return outcome.ok ? outcome.value : null
}

/** A silhouette as text, highest row first: `.` for nothing, else the sum of the tools' bits. */
export const asText = (silhouette: Silhouette | null): string => {
  if (silhouette === null) return 'null'
  const { columns, rows, bits, axis, cell_mm, row_mm, left_mm, bottom_mm } = silhouette
  const lines = Array.from({ length: rows }, (_, row) =>
    [...bits.subarray(row * columns, (row + 1) * columns)]
      .map((cell) => (cell === 0 ? '.' : cell.toString(36)))
      .join(''),
  )
  const head = `${axis} from ${left_mm} by ${cell_mm}, from ${bottom_mm} by ${row_mm}`
  return [head, ...lines.toReversed()].join('\n')
}

/** Whether two silhouettes are the same, quickly. */
export const sameSilhouette = (a: Silhouette | null, b: Silhouette | null): boolean => {
  if (a === null || b === null) return a === b
  const { bits: cells, ...grid } = a
  const { bits: others, ...otherGrid } = b
  return (
    JSON.stringify(grid) === JSON.stringify(otherGrid) &&
    cells.length === others.length &&
    cells.every((cell, at) => cell === others[at])
  )
}

/** The reader draws what the twin draws; returns it. @param strokes - the twin's, where they are known */
export const checkSilhouette = (
  bytes: Uint8Array,
  options: ReadOptions = {},
  strokes?: readonly LaidStroke[],
): Silhouette | null => {
  const reading = readDrawn([bytes], options)
  if (reading === null) return null
  const want = twinSilhouette(strokes ?? twinStrokes(bytes, options), reading.layers.step_mm)
  if (!sameSilhouette(reading.silhouette, want)) {
    expect(asText(reading.silhouette)).toBe(asText(want))
  }
  return reading.silhouette
}
