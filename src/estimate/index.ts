export type { Assumption } from './assumption.ts'
export { carrierSurprise } from './carrier-surprise.ts'
export { densityOfReel, type FilamentOfReel, filamentOfReel } from './filament-of-reel.ts'
export {
  type Conditioned,
  condition,
  covarianceOf,
  extend,
  type JointNormal,
  jointNormal,
  type LinearForm,
  type LinearObservation,
  marginal,
  meanOf,
} from './joint-normal.ts'
export { keepAbove } from './keep-above.ts'
export { normalCdf, normalDensity, normalQuantile, normalUpperTail } from './normal.ts'
export {
  type Observation,
  type Point,
  productAt,
  rowAt,
  scaled,
  sumOf,
} from './observation.ts'
export { type PacePriors, pacePriors } from './pace-priors.ts'
export {
  learnPace,
  type Pace,
  type PlannedRun,
  paceFigures,
  runInTurn,
  type Taking,
  type TimedRun,
  takes,
  unknownPace,
} from './print-pace.ts'
export {
  type CarrierKind,
  defaultPriors,
  type Prior,
  type Priors,
  type TareOfSize,
  tareOfKind,
  unknownTareOf,
} from './priors.ts'
export { reckonReel } from './reckon-reel.ts'
export {
  type AnotherReel,
  linearDensityOf,
  type NextPrint,
  type Notice,
  netOf,
  type ReelBelief,
  tareOf,
  type UsedObservation,
} from './reel-belief.ts'
export type {
  CaliperReadings,
  CutLength,
  ReelFacts,
  TareFact,
  Weighing,
} from './reel-facts.ts'
export { type ReelModel, reelModel } from './reel-model.ts'
export { reelsApart } from './shelf-apart.ts'
export { assumedOfPrinter } from './shelf-assumed.ts'
export { type ShelfBeliefOptions, shelfBelief } from './shelf-belief.ts'
export type { ShelfBook } from './shelf-book.ts'
export type { ReelBlock, ShelfPoint } from './shelf-chain.ts'
export { type Contradiction, contradictions } from './shelf-contradictions.ts'
export {
  estimateShelf,
  type ShelfEstimate,
  type ShelfOptions,
  shelfAsKnownAt,
  withFacts,
  withoutFacts,
  withoutWeighing,
} from './shelf-estimate.ts'
export type {
  Air,
  CarrierWeighed,
  MakeSheet,
  ReelDrew,
  ReelDried,
  ReelEmptied,
  ReelMeasured,
  ReelMoved,
  ReelOpened,
  ReelRanDry,
  ReelTrimmed,
  ReelWeighed,
  ShelfCatalogue,
  ShelfFact,
  ShelfMake,
  ShelfPrinter,
  ShelfReel,
  ShelfScale,
  ShelfWeighing,
} from './shelf-facts.ts'
export { earlierAtFault } from './shelf-look-back.ts'
export {
  type MakePosterior,
  makePosterior,
  type PrinterPosterior,
  printerPosterior,
  type ReelPosteriorOptions,
  reelPosterior,
  type ShelfNets,
  scalePosterior,
  shelfGrosses,
  shelfNames,
  shelfNets,
} from './shelf-posterior.ts'
export {
  defaultShelfPriors,
  type MakePrior,
  makePrior,
  type PrinterPrior,
  printerPrior,
  type ShelfPriors,
} from './shelf-priors.ts'
export { defaultShelfSlips, type ShelfSlips, type Slip } from './shelf-slips.ts'
export {
  type LearntSpreads,
  learnSpreads,
  medianSpread,
  type SpreadFactors,
  type SpreadName,
  type SpreadOptions,
  spreadNames,
  spreadOfPrior,
  withSpreads,
} from './shelf-spreads.ts'
export { type WeighingCause, type WeighingSurprise, weighingSurprise } from './shelf-surprise.ts'
export type { MakeWater } from './shelf-water.ts'
export { type StandIn, standInsOf } from './stand-in.ts'
export { type StandardAbove, standardAbove } from './standard-above.ts'
export { unknownNames } from './unknown-names.ts'
export { type PrintTold, withPrintTold } from './with-print-told.ts'
export {
  newReelWork,
  type PrinterWork,
  type ToldPrinter,
  toldWork,
  untoldPrinter,
  type WorkBelief,
  workBelief,
} from './work-belief.ts'
