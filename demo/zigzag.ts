import type { MachineCode } from './machine-code.ts'
import type { Rectangle } from './rectangle.ts'

/** Which way the long strokes of a zigzag run. */
export type Stroke = 'along-x' | 'along-y'

const sides = ({ width, depth }: Rectangle, stroke: Stroke): { long: number; across: number } =>
  stroke === 'along-x' ? { long: width, across: depth } : { long: depth, across: width }

/**
 * Path of a zigzag that fills the rectangle with `lines` strokes, mm: the strokes, and the steps
 * between them, which together go across once.
 */
export const zigzagPath = (area: Rectangle, stroke: Stroke, lines: number): number => {
  const { long, across } = sides(area, stroke)
  return lines * long + across
}

/** Hops to the front left corner and fills the rectangle; `lines` ≥ 2. */
export const drawZigzag = (
  code: MachineCode,
  area: Rectangle,
  stroke: Stroke,
  lines: number,
): void => {
  const { long, across } = sides(area, stroke)
  const at = (l: number, a: number): { x: number; y: number } =>
    stroke === 'along-x'
      ? { x: area.left + l, y: area.front + a }
      : { x: area.left + a, y: area.front + l }
  code.hop(at(0, 0))
  for (let line = 0; line < lines; line += 1) {
    const a = (across * line) / (lines - 1)
    const end = line % 2 === 0 ? long : 0
    if (line > 0) code.draw(at(long - end, a))
    code.draw(at(end, a))
  }
}
