export {
  type LogInRequest,
  logInRequest,
  type NewTokenJson,
  newTokenJson,
  type SessionJson,
  sessionJson,
  type TokenJson,
  type TokenRequest,
  type TokensJson,
  tokenRequest,
  tokensJson,
} from './access-json.ts'
export { type AssumptionJson, assumptionJson } from './assumption-json.ts'
export {
  type CatalogueRowJson,
  catalogueRowJson,
  type MakeRowJson,
  type MaterialRowJson,
  type MotionJson,
  type NamedRowKind,
  newRowRequest,
  type PersonRowJson,
  type PrinterRowJson,
  type PriorsRowJson,
  type RowRequest,
  rowChangeRequest,
  type ScaleRowJson,
} from './catalogue-json.ts'
export { changeCaution, hotMachineCaution } from './cautions.ts'
export {
  type AlternativeJson,
  type CheckedPrintJson,
  type CheckJson,
  checkJson,
  type EarlierChangeJson,
  type PrinterJudgedJson,
  type RunDryPointJson,
  type ToolCheckJson,
} from './check-json.ts'
export {
  type CheckInTurnRequest,
  type CheckReelsRequest,
  type CheckShelfRequest,
  checkInTurnRequest,
  checkReelsRequest,
  checkShelfRequest,
  type OfShelfRequest,
  type PrintAskedRequest,
  printerAsked,
  type ReelAskedJson,
  reelsAsked,
  type SupposedJson,
  type WhereAskedRequest,
} from './check-request.ts'
export { type ChecksJson, checksJson } from './checks-json.ts'
export { type ClockJson, clockJson, type PrintTimeJson, printTimeJson } from './clock-json.ts'
export { type ContradictedJson, contradictedJson } from './contradicted-json.ts'
export { disagreement } from './disagreement.ts'
export { type DrawRequest, drawRequest } from './draw-request.ts'
export { type ErrorJson, type ErrorPartJson, errorJson } from './error-json.ts'
export { type EventRequest, type EventToldJson, eventRequest } from './event-request.ts'
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
  type PutRightJson,
  type RanDryJson,
  type RetiredJson,
  type StoppedAtJson,
  type TimedJson,
  type TrimmedJson,
  type WeighedJson,
} from './fact-json.ts'
export { type FindingJson, findingJson } from './finding-json.ts'
export { type ImportJson, importJson } from './import-json.ts'
export { type KeptJson, keptJson } from './kept-json.ts'
export { type LearntJson, learntJson, type PaceJson } from './learnt-json.ts'
export { moment, printId, type WeighingJson, weighingJson } from './ledger-parts.ts'
export {
  isCatalogueRow,
  isFact,
  isPrintRow,
  type LedgerRecord,
  ledgerRecord,
} from './ledger-record.ts'
export { type MakeFactsJson, makeFactsJson } from './make-facts-json.ts'
export {
  type DutyJson,
  type MatchCopyJson,
  type MatchJson,
  type MatchReelJson,
  type MatchRequest,
  type MissingJson,
  matchJson,
  matchRequest,
  type PlannedChangeJson,
  type RemedyJson,
  type SearchEndedJson,
  searchEndedJson,
} from './match-json.ts'
export { type MayJson, mays } from './may.ts'
export { type MeasureRequest, measureRequest } from './measure-request.ts'
export { type MeasuredJson, measuredJson } from './measured-json.ts'
export { type PausedCopyJson, type PauseToldJson, pausedCopyJson } from './paused-copy-json.ts'
export { type PlanJson, type PlanRequest, planJson, planRequest } from './plan-request.ts'
export type { PriceJson } from './price-json.ts'
export {
  type PrintRowJson,
  type PrintRowTimeJson,
  type PrintToolRowJson,
  printRowJson,
} from './print-row-json.ts'
export { type PutRightRequest, putRightRequest } from './put-right-request.ts'
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
export { type ReelHeadJson, reelHeadJson } from './reel-head-json.ts'
export { type ReelLifeJson, reelLifeJson } from './reel-life-json.ts'
export { type ListedReelJson, type ReelListJson, reelListJson } from './reel-list-json.ts'
export { type ReelRequest, reelRequest } from './reel-request.ts'
export { type ReelShowJson, reelShowJson } from './reel-show-json.ts'
export type { ReelTellJson, WeighedTellJson } from './reel-tell-json.ts'
export { type ReelWorkingJson, reelWorkingJson } from './reel-working-json.ts'
export { type ReelWoundJson, reelWoundJson } from './reel-wound-json.ts'
export { type References, referencesOf, whatIsMissing } from './references-of.ts'
export {
  type PriorRequest,
  priorRequest,
  type SheetRequest,
  sheetRequest,
} from './row-request.ts'
export type {
  RunningClockJson,
  RunningEndJson,
  RunningPlaceJson,
  RunningReelJson,
  RunningRowJson,
  RunningToldJson,
} from './running-json.ts'
export { longestPrint_s } from './running-json.ts'
export {
  type RunningChangeRequest,
  type RunningPrintJson,
  type RunningPrintsJson,
  type RunningReelTold,
  type RunningRequest,
  runningChangeRequest,
  runningPrintsJson,
  runningRequest,
} from './running-request.ts'
export { type SaidRequest, type WeighingTellJson, weighingTellJson } from './said-request.ts'
export {
  type ChangeJson,
  changeJson,
  type HealthJson,
  healthJson,
  type PrintsJson,
  type ProblemJson,
  printsJson,
  problemJson,
} from './server-json.ts'
export {
  type MaterialToTakeJson,
  type RankedReelJson,
  type ShelfCheckJson,
  shelfCheckJson,
  type ToolRankingJson,
  type TwoReelsJson,
} from './shelf-check-json.ts'
export { checkSymbol, idAlphabet, idLength, isId, makeId, readId, showId } from './short-id.ts'
export {
  type SlateJson,
  slateJson,
  type WaitingChangeRequest,
  type WaitingRequest,
  type WaitingTellJson,
  waitingChangeRequest,
  waitingRequest,
} from './slate-json.ts'
export {
  type TableHeadJson,
  type TableHeadRequest,
  type TableRequest,
  tableHeadJson,
  tableHeadRequest,
  tableRequest,
} from './table-json.ts'
export { type ToldFactJson } from './told-fact-json.ts'
export {
  type PlanChoiceJson,
  type PlanRowJson,
  type WaitingChangesJson,
  type WaitingRowJson,
  type WaitingToolJson,
} from './waiting-json.ts'
export { type WatchJson, watchEvents, watchJson } from './watch-json.ts'
export { type WeighRequest, weighRequest } from './weigh-request.ts'
