export { type AxisTicks, axisTicks } from './axis-ticks.ts'
export {
  type Drawing,
  hatched,
  type Ink,
  type Lettering,
  type PathShape,
  type TextShape,
} from './drawing.ts'
export { lettersWide } from './letter-strokes.ts'
export { type Ground, paperAndInk } from './look.ts'
export { type Pixels, pixelsOf } from './pixels-of.ts'
export { type PlanAsked, planDrawing, planExtent } from './plan-drawing.ts'
export { type HeightNote, type SideAsked, sideDrawing, type ToolFill } from './side-drawing.ts'
export { type SilhouetteExtent, silhouetteExtent } from './silhouette-extent.ts'
export { spreadLabels } from './spread-labels.ts'
export { svgOf } from './svg-of.ts'
export { type HeightTime, type TimesAlong, timeMarks } from './time-marks.ts'
