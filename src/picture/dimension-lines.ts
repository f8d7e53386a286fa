import { axisTicks } from './axis-ticks.ts'
import type { PathShape, TextShape } from './drawing.ts'
import { type ScaleMark, type TimesAlong, timeMarks } from './time-marks.ts'

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
  const ticks = axisTicks(top, Math.max(2, Math.round((y(0) - y(top)) / 50)))
  const marks = ticks.at.filter((at) => y(at) - y(top) > nearest)
  const text = (at: number): string => String(at === top ? Math.round(at * 100) / 100 : at)
  return standingScale(
    left,
    -1,
    y,
    [...marks, top].map((at) => ({ at, text: text(at) })),
  )
}

/** Room that a scale of times takes to the right of what is drawn, px. */
export const timeScaleWidth = 62

/**
 * A scale to the right: when heights are reached. Marks that stand too near to another, or to a height of
 * which something else is told, give way; of the end only the words do.
 *
 * @param right - of what is drawn, px
 * @param told - heights of which something else is told, mm
 */
export const timeScale = (
  right: number,
  y: (height_mm: number) => number,
  times: TimesAlong,
  told: readonly number[],
): Shapes => {
  const top = times.heights.at(-1)?.height_mm ?? 0
  const marks = timeMarks(times, Math.max(2, Math.round((y(0) - y(top)) / 40)))
  const [end] = marks.slice(-1)
  if (end === undefined) return []
  const isFree = ({ at }: ScaleMark): boolean =>
    told.every((other) => Math.abs(y(other) - y(at)) > nearest / 2)
  const shown = [isFree(end) ? end : { ...end, text: '' }]
  for (const mark of marks.slice(0, -1).toReversed()) {
    if (isFree(mark) && y(mark.at) - y(shown.at(-1)!.at) > nearest) shown.push(mark)
  }
  return standingScale(right, 1, y, shown)
}

/** Marks nearer to each other than this can not be read, px. */
const nearest = 15

const standingScale = (
  edge: number,
  side: -1 | 1,
  y: (height_mm: number) => number,
  marks: readonly ScaleMark[],
): Shapes => {
  const x = (off: number): number => edge + side * off
  const top = Math.max(...marks.map(({ at }) => at))
  return [
    path('hair', `M${x(14)} ${y(top)}V${y(0)}`),
    ...marks.flatMap(({ at, text }) => [
      path('tick', `M${Math.min(x(18), x(10))} ${y(at)}H${Math.max(x(18), x(10))}`),
      ...(text === '' ? [] : [soft(x(22), y(at) + 4, text, side < 0 ? 'end' : 'start')]),
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
