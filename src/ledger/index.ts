export { calipersOf } from './calipers-of.ts'
export { carrierLabels, otherLabel } from './carrier-sizes.ts'
export { type Catalogue, catalogueOf } from './catalogue.ts'
export { checkNewFact } from './check-new-fact.ts'
export { describeFact } from './describe-fact.ts'
export { editPriors, type PriorKey, priorKeys } from './edit-priors.ts'
export { doubted, exactDoubts } from './exact-doubt.ts'
export { type FactBounds, factBounds } from './fact-bounds.ts'
export { firstMissing, type Missing } from './first-missing.ts'
export { type LedgerHeader, ledgerFormat, ledgerHeader, ledgerLine } from './ledger-lines.ts'
export { type LedgerNames, ledgerNames } from './ledger-names.ts'
export { LedgerReader, readLedger, recordOf } from './ledger-reader.ts'
export {
  type LedgerTable,
  ledgerTables,
  type PrintHeadingRow,
} from './ledger-tables.ts'
export { motionOfPrinter, motionRowOf } from './motion-of-printer.ts'
export { nameOfMaterial } from './name-of-material.ts'
export { type Cell, plainCell } from './plain-cell.ts'
export {
  type KeptReading,
  type KeptStop,
  type PrintHead,
  printRowOf,
  readingOfRow,
} from './print-row.ts'
export { type CardFact, type ReelCard, type ReelState, reelCards } from './reel-cards.ts'
export {
  type GuessedMapping,
  guessReelMapping,
  namedReelMapping,
  type ReelColumn,
  type ReelMapping,
  reelColumns,
  sayReelMapping,
} from './reel-columns.ts'
export {
  byTime,
  type LeftFact,
  type ReelHistories,
  type ReelHistory,
  reelHistories,
  reelOfFact,
  type StandingFact,
} from './reel-histories.ts'
export {
  reelsFromTable,
  type TableContext,
  type TableRow,
  type TableRowOutcome,
} from './reels-from-table.ts'
export { type FedOf, type HeightsOf, shareFed, usualShareDoubt } from './share-fed.ts'
export { daysOf, type LedgerShelf, shelfOf } from './shelf-of.ts'
export { type StandingFacts, standingFacts } from './standing-facts.ts'
export { withoutMaker } from './without-maker.ts'
