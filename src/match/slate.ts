import type { WorkBelief } from '../estimate/index.ts'
import type { Measured, Millimetres } from '../units/index.ts'
import type { DrawAlternative } from '../verdict/index.ts'

/** What a print that runs on a printer takes of one reel for one of its tools: the whole, or a part between changes. */
export interface RunningDraw {
  readonly tool: number
  /** The reel that feeds it; it is on the printer until that is free, or until another one took over. */
  readonly reel: string
  /** Of the whole print, at least one; see `DrawAlternative`. Layer ends are needed of a part. */
  readonly draw: readonly DrawAlternative[]
  /** It took over once this layer was done, 1-based; from the beginning unless given. */
  readonly afterLayer?: number
  /** Another reel took over once this layer was done, and it came off; to the end unless given. */
  readonly untilLayer?: number
}

/** A printer that may do prints of the slate. */
export interface MatchPrinter {
  readonly id: string
  /** Hours from now until it can begin; 0 unless given. */
  readonly free_h?: number
  /** Which reel is on it now, by tool. One told for several is on the last of them. */
  readonly loaded?: Readonly<Record<number, string>>
  /** What runs on it: it comes off its reels before anything else. Reels that are not the slate's are passed over. */
  readonly running?: readonly RunningDraw[]
  /** The last length of a reel it can not print, mm; of a printer nobody has measured unless given. */
  readonly tail_mm?: Measured<Millimetres>
  /** What a planned change takes of the reel that comes in, mm; 200 ± 60 unless given. */
  readonly change_mm?: Measured
}

/** A reel that prints may be taken from. */
export interface MatchReel {
  readonly id: string
  /** Jointly with every printer that may take from it. */
  readonly belief: WorkBelief
  /** Not opened yet: to take it is to open it. */
  readonly sealed: boolean
}

/** What one tool of a copy needs. */
export interface MatchTask {
  /** As in the print's reading. */
  readonly tool: number
  /** At least one; see `DrawAlternative`. Layer ends are needed where changes are allowed. */
  readonly draw: readonly DrawAlternative[]
  /** Ids of the reels of the right material, diameter and colour; see `reelsThatFit`. */
  readonly fits: readonly string[]
  /** Ids of reels that would fit if any colour did; used only to say what would help. */
  readonly inAnyColour?: readonly string[]
}

/** Where a print may be changed from one reel to the next in mid-print. */
export interface PlannedChanges {
  /** Most changes for one tool of one copy, ≥ 1; 1 unless given. */
  readonly most?: number
  /** Layers after which a change would not show, 1-based; any layer end unless given. */
  readonly afterLayers?: readonly number[]
}

/** One copy of a waiting print. */
export interface MatchCopy {
  /** Distinct among all copies. */
  readonly id: string
  /** At least one. A copy is served when all its tools are. */
  readonly tasks: readonly MatchTask[]
  /** Ids of the printers that may do it, at least one. */
  readonly printers: readonly string[]
  /** Larger is more important, and one that is comes before any number that are less; 0 unless given. */
  readonly importance?: number
  /** Hours from now by which it should be done. */
  readonly due_h?: number
  /** How long it prints, hours; where it is not known nothing can be late by it, and it counts as 0. */
  readonly duration_h?: number
  /** None are planned unless given. */
  readonly changes?: PlannedChanges
}

/**
 * A choice of the person's that the match has to keep: the tool is fed from this reel, and where it may be
 * changed in mid-print, in one of its parts at least. Of several for one tool each feeds a part.
 */
export interface MatchLock {
  readonly copy: string
  readonly tool: number
  readonly reel: string
}

/** A reel, or a reel for one copy, that the match must not take. */
export interface MatchBar {
  readonly reel: string
  /** For this copy only; for all unless given. */
  readonly copy?: string
}

/** A choice of an earlier plan. */
export interface EarlierChoice {
  readonly copy: string
  readonly tool: number
  readonly reel: string
  readonly printer: string
}

/** The waiting prints, the shelf as far as it fits them, and what the person wants. */
export interface MatchSlate {
  readonly copies: readonly MatchCopy[]
  readonly reels: readonly MatchReel[]
  readonly printers: readonly MatchPrinter[]
  /** c: each matched print finishes with at least this chance; 0.95 unless given. */
  readonly confidence?: number
  /** What is left on a reel and less than this is a stub, g; 50 unless given. See `usefulMass`. */
  readonly useful_g?: number
  readonly locks?: readonly MatchLock[]
  readonly barred?: readonly MatchBar[]
  /** Choices of the last plan: among plans that are as good by prints, lateness, changes and newly
   * opened reels, the one that differs least from it is taken. */
  readonly earlier?: readonly EarlierChoice[]
}
