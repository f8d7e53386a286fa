export { believeReel, type ReelAsked, type ReelBelieved, type WeighingNow } from './believe-reel.ts'
export {
  checkShelf,
  type RankedReel,
  type ShelfAnswer,
  type ShelfQuestion,
  type ToolRanking,
} from './check-shelf.ts'
export { findReel, type ReelWanted } from './find-reel.ts'
export { findRow, type NamedKind, type RowOf, rowName, rowsOf } from './find-row.ts'
export type { HandedIn } from './handed-in.ts'
export { type ListedReel, listReels } from './list-reels.ts'
export { nameOfReel } from './name-of-reel.ts'
export { newFactId, newRowId } from './new-id.ts'
export { diameterOfReel, isInUse, makeOfReel, usualDiameter_mm } from './reel-card.ts'
export { type ReelFilter, reelFilter } from './reel-filter.ts'
export { type ReelNow, reelNow } from './reel-now.ts'
export { type ReelKnown, type ReelStory, reelStory, type StoryMoments } from './reel-story.ts'
export { type ReelWorking, type Rest, reelWorking, type WorkingWeighing } from './reel-working.ts'
export { type ShelfView, shelfView, viewOf } from './shelf-view.ts'
