import type { MachineCode } from './machine-code.ts'

/** An upright rectangle on the bed, mm. */
export interface Rectangle {
  readonly left: number
  readonly front: number
  readonly width: number
  readonly depth: number
}

/** The rectangle whose sides lie `by` mm further in. */
export const inset = ({ left, front, width, depth }: Rectangle, by: number): Rectangle => ({
  left: left + by,
  front: front + by,
  width: width - 2 * by,
  depth: depth - 2 * by,
})

/** Path once round, mm. */
export const rectanglePath = ({ width, depth }: Rectangle): number => 2 * (width + depth)

/** Hops to the front left corner and draws once round. */
export const drawRectangle = (code: MachineCode, rectangle: Rectangle): void => {
  const { left, front, width, depth } = rectangle
  code
    .hop({ x: left, y: front })
    .draw({ x: left + width, y: front })
    .draw({ x: left + width, y: front + depth })
    .draw({ x: left, y: front + depth })
    .draw({ x: left, y: front })
}
