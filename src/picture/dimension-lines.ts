import { axisTicks } from './axis-ticks.ts'
import type { PathShape, TextShape } from './drawing.ts'

type Shapes = readonly (PathShape | TextShape)[]

const path = (ink: PathShape['ink'], d: string): PathShape => ({ kind: 'path', ink, d })
const soft = (x: number, y: number, text: string, anchor: TextShape['anchor']): TextShape => ({
  kind: 'text',
  lettering: 'soft',
  x,
  y,
  text,
  anchor,
})

/**
 * A scale that stands to the left of what is drawn: round marks, and the top, which is always told.
 *
 * @param left - of what is drawn, px
 * @param y - px of a height
 * @param top - the highest, mm, > 0
 */
export const heightScale = (
  left: number,
  y: (height_mm: number) => number,
  top: number,
): Shapes => {
  const long = y(0) - y(top)
  const ticks = axisTicks(top, Math.max(2, Math.round(long / 50)))
  // A round mark too near to the top gives way to it.
  const marks = [...ticks.at.filter((at) => y(at) - y(top) > 15), top]
  return [
    path('hair', `M${left - 14} ${y(top)}V${y(0)}`),
    ...marks.flatMap((at) => [
      path('tick', `M${left - 18} ${y(at)}H${left - 10}`),
      soft(left - 22, y(at) + 4, String(at === top ? Math.round(at * 10) / 10 : at), 'end'),
    ]),
  ]
}

/** A dimension line below what is drawn, from edge to edge, with slashes at its ends. */
export const widthLine = (left: number, right: number, below: number, text: string): Shapes => [
  path(
    'hair',
    `M${left} ${below + 6}V${below + 18}M${right} ${below + 6}V${below + 18}M${left} ${below + 13}H${right}`,
  ),
  path(
    'tick',
    `M${left - 4} ${below + 17}L${left + 4} ${below + 9}M${right - 4} ${below + 17}L${right + 4} ${below + 9}`,
  ),
  soft((left + right) / 2, below + 29, text, 'middle'),
]

/** The same to the left of what is drawn, from its upper edge to its lower. */
export const depthLine = (left: number, top: number, bottom: number, text: string): Shapes => [
  path(
    'hair',
    `M${left - 18} ${top}H${left - 6}M${left - 18} ${bottom}H${left - 6}M${left - 13} ${top}V${bottom}`,
  ),
  path(
    'tick',
    `M${left - 17} ${top + 4}L${left - 9} ${top - 4}M${left - 17} ${bottom + 4}L${left - 9} ${bottom - 4}`,
  ),
  soft(left - 22, (top + bottom) / 2 + 4, text, 'end'),
]
