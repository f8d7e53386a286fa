export {
  type CatalogueRowJson,
  catalogueRowJson,
  type MakeRowJson,
  type MaterialRowJson,
  type PersonRowJson,
  type PrinterRowJson,
  type PriorsRowJson,
  type ScaleRowJson,
} from './catalogue-json.ts'
export {
  type AlternativeJson,
  type CheckJson,
  checkJson,
  type RunDryPointJson,
  type ToolCheckJson,
} from './check-json.ts'
export { type ErrorJson, errorJson } from './error-json.ts'
export {
  type CarrierWeighedJson,
  type ColourJson,
  type DataSheetJson,
  type DrewJson,
  type DriedJson,
  type EmptiedJson,
  type FactCommonJson,
  type FactJson,
  factJson,
  type MeasuredFactJson,
  type MovedJson,
  type OpenedJson,
  type PriceJson,
  type PutRightJson,
  type RanDryJson,
  type RetiredJson,
  type StoppedAtJson,
  type TrimmedJson,
  type WeighedJson,
} from './fact-json.ts'
export { type FindingJson, findingJson } from './finding-json.ts'
export { moment, type WeighingJson, weighingJson } from './ledger-parts.ts'
export {
  isCatalogueRow,
  isFact,
  isPrintRow,
  type LedgerRecord,
  ledgerRecord,
} from './ledger-record.ts'
export { type MeasuredJson, measuredJson } from './measured-json.ts'
export { type PrintRowJson, type PrintToolRowJson, printRowJson } from './print-row-json.ts'
export {
  type ReadJson,
  type ReadPrintJson,
  type ReadToolJson,
  readJson,
  readPrintJson,
} from './read-json.ts'
export {
  type PriorsJson,
  priorsJson,
  type RecordedJson,
  type ReelChangeJson,
  type ReelNowJson,
  type RowsJson,
  recordedJson,
  rowsJson,
  type SurpriseJson,
} from './recorded-json.ts'
export { checkSymbol, idAlphabet, idLength, isId, makeId, readId, showId } from './short-id.ts'
