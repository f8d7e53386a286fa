export { usualChange } from './compiled-slate.ts'
export { enoughOnNew } from './enough-on-new.ts'
export { type ChoiceReason, explainChoice } from './explain-choice.ts'
export type {
  LinearAnswer,
  LinearBasis,
  LinearModel,
  LinearQuestion,
  LinearSolver,
} from './linear-solver.ts'
export type { LoadLevel } from './load-problem.ts'
export {
  type Duty,
  type LevelResult,
  type MatchLevel,
  type MatchPlan,
  type MissingFilament,
  matchLevels,
  type PrinterOrder,
  type ReelAfter,
  type RunningDuty,
  type ServedCopy,
  type UnservedCopy,
} from './match-plan.ts'
export { type Matcher, type MatchOptions, type MatchProgress, matchSlate } from './match-slate.ts'
export { type PartSolver, partSolver, type SolvedPart } from './part-solver.ts'
export {
  type ColourRule,
  type FilamentWanted,
  type FittingReels,
  type ReelTraits,
  reelsThatFit,
} from './reels-that-fit.ts'
export {
  type OfferedReel,
  type RemediesAsked,
  type Remedy,
  remediesFor,
} from './remedies.ts'
export type {
  EarlierChoice,
  MatchBar,
  MatchCopy,
  MatchLock,
  MatchPrinter,
  MatchReel,
  MatchSlate,
  MatchTask,
  PlannedChanges,
  RunningDraw,
} from './slate.ts'
export { countParts } from './slate-parts.ts'
export { usefulMass, usualUsefulMass } from './useful-mass.ts'
