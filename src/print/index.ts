export { type Arc, type ArcPoint, arcLength } from './arc.ts'
export type { Finding } from './finding.ts'
export { type FirmwareFamily, type FirmwareFamilyId, firmwareFamilies } from './firmware-family.ts'
export type {
  Bead,
  Counts,
  DrawCurve,
  FamilyReading,
  Layers,
  PrintReading,
  ReadOptions,
  Stop,
  ToolReading,
} from './reading.ts'
export { lineBudget } from './line-reader.ts'
export { PrintReader, readPrint } from './print-reader.ts'
