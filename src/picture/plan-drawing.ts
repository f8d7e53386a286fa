import type { LayerPlan, PlanWay } from '../print/index.ts'
import { depthLine, widthLine } from './dimension-lines.ts'
import type { Drawing, PathShape, TextShape } from './drawing.ts'
import { lettersWide } from './letter-strokes.ts'
import { letterings } from './look.ts'
import { titleHeight, titleShapes, titleWidth } from './title.ts'

/** One layer from above, and what is to be said of it. */
export interface PlanAsked {
  readonly plan: LayerPlan
  /** Of a bead, mm; a hair's breadth is drawn at least. */
  readonly bead_mm: number
  /** px. */
  readonly width: number
  readonly height: number
  /** Above the drawing; none unless given. */
  readonly title?: string
  /** A measure in words. */
  readonly sayLength: (mm: number) => string
  readonly said: string
}

/** What the ways of a plan fill, mm; null where there are none. */
export interface PlanExtent {
  readonly left: number
  readonly right: number
  readonly front: number
  readonly back: number
}

export const planExtent = ({ ways }: LayerPlan): PlanExtent | null => {
  let [left, right, front, back] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const { points } of ways) {
    for (let k = 0; k < points.length; k += 2) {
      left = Math.min(left, points[k]!)
      right = Math.max(right, points[k]!)
      front = Math.min(front, points[k + 1]!)
      back = Math.max(back, points[k + 1]!)
    }
  }
  return left <= right ? { left, right, front, back } : null
}

const [edgeAbove, below] = [14, 34]
/** Beads are drawn a little narrower than they are, so that neighbours can be told apart. */
const ofBead = 0.8
const thinnest = 0.75
/** Beside the drawing of several tools, their names in their inks. */
const besideKey = 48
const toolInks = [
  { ink: 'bead', lettering: 'label' },
  { ink: 'beadSecond', lettering: 'changeWord' },
  { ink: 'beadOther', lettering: 'soft' },
] as const

/** A layer from above, to scale, each way as wide as its bead; front edge below. */
export const planDrawing = (asked: PlanAsked): Drawing => {
  const { plan, bead_mm: bead, title, said } = asked
  const above = edgeAbove + titleHeight(title)
  const extent = planExtent(plan)
  if (extent === null) {
    return { width: asked.width, height: above + below, said, shapes: titleShapes(title) }
  }
  // The dimensions told are those of what is laid down, the breadth of the bead included.
  const left = extent.left - bead / 2
  const front = extent.front - bead / 2
  const wide = Math.max(extent.right + bead / 2 - left, 0.1)
  const deep = Math.max(extent.back + bead / 2 - front, 0.1)
  const deepText = asked.sayLength(deep)
  const gutter = 34 + lettersWide(deepText, letterings.soft.size)
  const scale = Math.min(
    (asked.width - gutter - besideKey) / wide,
    (asked.height - above - below) / deep,
  )
  const bottom = above + deep * scale
  const x = (place: number): number => gutter + (place - left) * scale
  const y = (place: number): number => bottom - (place - front) * scale
  const width = Math.max(bead * scale * ofBead, thinnest)
  const right = gutter + wide * scale
  const tools = [...new Set(plan.ways.map(({ tool }) => tool))].toSorted((a, b) => a - b)
  const inkOf = (tool: number): (typeof toolInks)[number] =>
    toolInks[Math.min(tools.indexOf(tool), toolInks.length - 1)]!
  const several = tools.length > 1
  return {
    width: Math.ceil(
      Math.min(asked.width, Math.max(right + (several ? besideKey : 20), titleWidth(title))),
    ),
    height: Math.ceil(bottom + below),
    said,
    shapes: [
      ...titleShapes(title),
      ...plan.ways.map(
        (way): PathShape => ({
          kind: 'path',
          ink: inkOf(way.tool).ink,
          d: pathOf(way, x, y),
          width,
        }),
      ),
      ...(several ? tools : []).map(
        (tool, k): TextShape => ({
          kind: 'text',
          lettering: inkOf(tool).lettering,
          x: right + 14,
          y: above + 12 + 18 * k,
          text: `T${tool}`,
          anchor: 'start',
        }),
      ),
      ...depthLine(gutter, above, bottom, deepText),
      ...widthLine(gutter, right, bottom, asked.sayLength(wide)),
    ],
  }
}

const tenth = (px: number): number => Math.round(px * 10) / 10

/** To a tenth of a pixel: what lies nearer to the point before is left out. */
const pathOf = (
  { points }: PlanWay,
  x: (mm: number) => number,
  y: (mm: number) => number,
): string => {
  let d = ''
  let [lastX, lastY] = [Number.NaN, Number.NaN]
  for (let k = 0; k < points.length; k += 2) {
    const [atX, atY] = [tenth(x(points[k]!)), tenth(y(points[k + 1]!))]
    if (atX === lastX && atY === lastY) continue
    if (d === '') d = `M${atX} ${atY}`
    else if (atY === lastY) d += `H${atX}`
    else if (atX === lastX) d += `V${atY}`
    else d += `L${atX} ${atY}`
    lastX = atX
    lastY = atY
  }
  // A way shorter than that is a dot.
  return /[LHV]/.test(d) ? d : `${d}H${lastX}`
}
