export { chanceOfDraw } from './chance-of-draw.ts'
export type { ChangePoint } from './change-point.ts'
export { drawAfterLayer } from './draw-after-layer.ts'
export { type DrawAlternative, normalised } from './draw-alternative.ts'
export { drawOfReading } from './draw-of-reading.ts'
export { drawOfStretch, type PlannedChange, type PlannedChanges } from './draw-of-stretch.ts'
export { type ChanceLimits, DrawnMargins } from './drawn-margins.ts'
export {
  availableDraw,
  chanceAt,
  chanceOf,
  chanceOfSome,
  drawWithChance,
  leftOverAt,
  marginAt,
  neededAt,
} from './margin.ts'
export { type MarginModel, marginModel, type PrinterCovariances } from './margin-model.ts'
export { type Narrowing, narrowReel } from './narrow-reel.ts'
export {
  byWorth,
  decent,
  type NextMeasure,
  nextMeasures,
  nextMeasuresOfPrint,
} from './next-measure.ts'
export { judgePrint, type PrintVerdict, type ToolInput } from './print-verdict.ts'
export { type Printer, unknownPrinter } from './printer.ts'
export type { RunDry, RunDryPoint } from './run-dry.ts'
export { type DryTimes, dryTimes, type Reached, reachedAt, type Timetable } from './timetable.ts'
export {
  type AlternativeVerdict,
  callInDoubt,
  callOf,
  contradictingOf,
  judge,
  mixture,
  type ToolVerdict,
  type Verdict,
  type VerdictInput,
} from './verdict.ts'
export { type WorkModel, type WorkPart, workReckoner } from './work-model.ts'
