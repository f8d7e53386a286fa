export { addReel, type NewReel, type ReelsAdded } from './add-reel.ts'
export { believeNow } from './believe-now.ts'
export { believeReel, type ReelAsked, type ReelBelieved, type WeighingNow } from './believe-reel.ts'
export { believeTold, type ReelTold } from './believe-told.ts'
export { addRow, changeRow, listRows, type RowChange, type RowTold } from './catalogue-rows.ts'
export { causeSentence } from './cause-sentence.ts'
export {
  callOfAll,
  checkInTurn,
  type InTurnAsked,
  isOfThePrint,
} from './check-in-turn.ts'
export { checkOverShelf, type ShelfAsked } from './check-over-shelf.ts'
export {
  checkReels,
  findForReels,
  type ReelForTool,
  type ReelNamed,
  type ReelOfPerson,
  type ReelsAsked,
  type ReelsChecked,
} from './check-reels.ts'
export {
  checkShelf,
  type RankedReel,
  type ShelfAnswer,
  type ShelfQuestion,
  type ToolRanking,
} from './check-shelf.ts'
export {
  checkToJson,
  type ToolJudged,
  type WhatWasChecked,
} from './check-to-json.ts'
export type { MakeTold } from './choose-make.ts'
export { choosePrinter } from './choose-printer.ts'
export { chooseScale, type ScaleChosen } from './choose-scale.ts'
export {
  beginOf,
  changeClock,
  dryClock,
  type PrintTimes,
  printTimeToJson,
} from './clock-to-json.ts'
export {
  besideContradicted,
  type ContradictedWeighing,
  contradictedOfMake,
  contradictedOfReel,
} from './contradicted.ts'
export { drawOfPart, plannedChanges } from './draw-of-part.ts'
export { earlierChanges } from './earlier-changes.ts'
export { factsOfMake } from './facts-of-make.ts'
export { findMaterialId } from './find-material-id.ts'
export { findReel, type ReelWanted } from './find-reel.ts'
export { findRow, type NamedKind, type RowOf, rowName, rowsOf } from './find-row.ts'
export { findWaiting } from './find-waiting.ts'
export { findingToJson } from './finding-to-json.ts'
export type { HandedIn } from './handed-in.ts'
export { heightsReached } from './heights-reached.ts'
export { readLedgerLines, withoutLine } from './import-lines.ts'
export { importRecords } from './import-records.ts'
export { type ReelTable, readTable, type TableRead } from './import-table.ts'
export { judgeReels } from './judge-reels.ts'
export { keepPlan, keptPlan } from './keep-plan.ts'
export { learnt } from './learnt.ts'
export { type ListedReel, listReels } from './list-reels.ts'
export { type MatchAsked } from './match-question.ts'
export { type MatchEngine, matchShelf } from './match-shelf.ts'
export { materialsToTake } from './materials-to-take.ts'
export { measureReel, type ReelMeasure } from './measure-reel.ts'
export { motionReported } from './motion-reported.ts'
export { nameOfReel } from './name-of-reel.ts'
export { newFactId, newRowId } from './new-id.ts'
export {
  lengthOfStated,
  type NominalFilament,
  nominalFilament,
  type StatedMass,
} from './nominal-filament.ts'
export { drawnTogether, oneAfterAnother } from './one-after-another.ts'
export { paceOfPrinter } from './pace-of-printer.ts'
export { printerAssumed, printerLearnt } from './printer-learnt.ts'
export { printerThatTakesMost } from './printer-that-takes-most.ts'
export {
  type PrinterTold,
  printerTold,
  printToldOf,
  rowBesideTold,
  type ToldOfPrinter,
} from './printer-told.ts'
export { priorsToJson } from './priors-to-json.ts'
export { type PutRight, type PutRightInput, putRight } from './put-right.ts'
export { type CsvCells, readCsv } from './read-csv.ts'
export {
  eModeOf,
  eUnitOf,
  familyOf,
  filamentDensity,
  filamentDiameter,
  type ReadingTold,
} from './reading-told.ts'
export type { Recorded, ReelChange } from './record.ts'
export { type DrawInput, recordDraw, type ToolFed } from './record-draw.ts'
export { type ReelEvent, recordOfReel } from './record-of-reel.ts'
export { recordedToJson } from './recorded-to-json.ts'
export { diameterOfReel, isInUse, makeOfReel, usualDiameter_mm } from './reel-card.ts'
export { type ReelFilter, reelFilter } from './reel-filter.ts'
export { reelLife } from './reel-life.ts'
export { reelListToJson } from './reel-list-to-json.ts'
export { type ReelNow, reelNow } from './reel-now.ts'
export { reelShowToJson, type ToldStory } from './reel-show-to-json.ts'
export { type ReelKnown, type ReelStory, reelStory, type StoryMoments } from './reel-story.ts'
export { reelTwice } from './reel-twice.ts'
export { type ReelWorking, type Rest, reelWorking, type WorkingWeighing } from './reel-working.ts'
export { reelsForTools } from './reels-for-tools.ts'
export { feedsPrint, runningOf, tellRunning } from './running-prints.ts'
export type { Said } from './said.ts'
export { type ScaleTold, scaleChangeOf, scaleRowOf } from './scale-told.ts'
export { type ShelfChecked, shelfCheckToJson, type ToldReels } from './shelf-check-to-json.ts'
export { listPriors, type PriorListed, setPrior } from './shelf-priors.ts'
export { type ShelfView, shelfView, viewOf } from './shelf-view.ts'
export { copiesWaiting, everWaiting, slateOf } from './slate-order.ts'
export {
  addWaiting,
  changeWaiting,
  type WaitingChange,
  type WaitingTold,
} from './slate-rows.ts'
export { changeRunning, startRunning } from './start-running.ts'
export { type SheetTold, stateOfMake } from './state-of-make.ts'
export { tableCsv } from './table-csv.ts'
export { leftOutRightly, type ReelOfTable, type TableTold, tableTold } from './table-told.ts'
export { tellSlate } from './tell-slate.ts'
export { toldFactToJson } from './told-fact-to-json.ts'
export { type ToolDrawn, toolsDrawn } from './tools-drawn.ts'
export { type TwoReels, twoReels, twoReelsBeside } from './two-reels.ts'
export { hasDiameter, usualDiameterOf } from './usual-diameter-of.ts'
export { wantedWords } from './wanted-words.ts'
export { weakest } from './weakest.ts'
export { type Acceptance, type Weighed, type WeighInput, weigh } from './weigh.ts'
export { onlyScale, weighingNow } from './weighing-now.ts'
export type { WeighingTold } from './weighing-told.ts'
export type { PrintAsked, PrinterJudged } from './what-is-asked.ts'
export { withNets } from './with-nets.ts'
