export { type Arc, type ArcPoint, arcLength } from './arc.ts'
export type { Clock, ClockMaker } from './clock.ts'
export {
  ClockTape,
  type Tape,
  type TapeLink,
  type TapeThing,
  type TimesTold,
} from './clock-tape.ts'
export { PrintFileReader, readPrintFile } from './container.ts'
export { type ContainerLimits, containerLimits } from './container-limits.ts'
export { type DrawDoubt, drawDoubtIn, type Finding } from './finding.ts'
export { type FirmwareFamily, type FirmwareFamilyId, firmwareFamilies } from './firmware-family.ts'
export { gunzip } from './gunzip.ts'
export { type LayerPlan, type PlanWay, planPoints } from './layer-plan.ts'
export { lineBudget } from './line-budget.ts'
export type { MotionOptions } from './motion-limits.ts'
export { type Axes, type CornerRule, type MotionProfile, motionDefaults } from './motion-profile.ts'
export { motionOfReport } from './motion-report.ts'
export { type PauseCommand, type PausePurpose, pauseCommand } from './pause-command.ts'
export { PauseFinder, type PausePlace } from './pause-finder.ts'
export {
  drawsTheSame,
  PausedCopy,
  PausedCopyCheck,
  type PlannedPause,
  pauseLine,
} from './paused-copy.ts'
export { type BorrowedSlices, borrowSlices } from './plain-lines.ts'
export type { Container, PrintFile, PrintOfFile } from './print-file.ts'
export { PrintReader, readPrint } from './print-reader.ts'
export { PrintUnpacker } from './print-unpacker.ts'
export type { Wait, WaitKind } from './print-waits.ts'
export type { RangeLog } from './range-log.ts'
export { RangeReader } from './range-reader.ts'
export type {
  Bead,
  Counts,
  DrawCurve,
  FamilyReading,
  Layers,
  PrintReading,
  PrintTime,
  ReadOptions,
  Stop,
  ToolReading,
} from './reading.ts'
export type { Silhouette } from './silhouette.ts'
export { silhouetteOutline } from './silhouette-outline.ts'
export { TapePlayer } from './tape-player.ts'
