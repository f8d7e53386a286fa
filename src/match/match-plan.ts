import type { Grams, Measured } from '../units/index.ts'

/** The part of one tool of one copy that one reel feeds. */
export interface Duty {
  readonly copy: string
  readonly tool: number
  readonly printer: string
  readonly reel: string
  /** Layer after which this reel comes in; 0 where the print begins on it. */
  readonly afterLayer: number
  /** Layer after which it is changed for the next one; null where the print ends on it. */
  readonly untilLayer: number | null
  /** What it takes off the reel, start allowance or change included. */
  readonly needed: Measured<Grams>
}

/** A copy that the plan serves. */
export interface ServedCopy {
  readonly copy: string
  readonly printer: string
  /** At least one for each tool, in the order in which they feed. */
  readonly duties: readonly Duty[]
  /**
   * Chance that it finishes, given that everything else its reels are asked to do is done before it:
   * the product over its duties of the chance that the reel lasts for all its duties.
   */
  readonly chance: number
  /** Hours from now by the durations that were told, along its printer and as its reels are free; null where durations are not known. */
  readonly begins_h: number | null
  readonly ends_h: number | null
  readonly late: boolean
  /** A reel that is still on another printer when this one is free: the copy begins when it comes off. */
  readonly waitsFor: string | null
  /** The printer that it comes off; null where none waits. */
  readonly waitsAt: string | null
  /** What is put on before it begins; of a tool whose reel is on already nothing. */
  readonly putsOn: readonly ReelPutOn[]
}

/** A reel put on a tool between prints. */
export interface ReelPutOn {
  readonly tool: number
  readonly reel: string
  /** The reel that comes off for it; null where none that is known is on. */
  readonly off: string | null
  /** The printer that the reel comes off; null where it is on none. */
  readonly from: string | null
}

/** Why a copy is not served. */
export interface UnservedCopy {
  readonly copy: string
  /** For each tool that no reel is left for. */
  readonly missing: readonly MissingFilament[]
}

/** What one tool of an unserved copy is short of. */
export interface MissingFilament {
  readonly tool: number
  /** What it takes, g, on a usual reel of those that fit. */
  readonly needed: Measured<Grams> | null
  /**
   * What the reel that comes nearest is short of, beside all that it is asked to do, to be as sure as is
   * wanted, g; never more than a reel with nothing on it would be. Null where no reel fits at all.
   */
  readonly short_g: number | null
  /** Reels that feed before it where changes are allowed, each up to the last layer end that it surely reaches. */
  readonly before: readonly { readonly reel: string; readonly untilLayer: number }[]
  /** The reel that comes nearest; the last of several. */
  readonly nearest: string | null
  /** Whether that is asked to do anything else. */
  readonly isBusy: boolean
}

/** What a print that runs, or a part of it between changes, takes off a reel. */
export interface RunningDuty {
  readonly printer: string
  readonly tool: number
  /** Layer after which the reel came in; 0: it began the print. */
  readonly afterLayer: number
  /** Layer after which it came off; null: it ends the print. */
  readonly untilLayer: number | null
  readonly needed: Measured<Grams>
}

/** A reel after the plan. */
export interface ReelAfter {
  readonly reel: string
  /** What runs on it already: it comes before all its duties. */
  readonly running: readonly RunningDuty[]
  /** Chance that it lasts for what runs; 1 where nothing does. */
  readonly lastsRunning: number
  /** In the order in which it does them. */
  readonly duties: readonly Duty[]
  /** Chance that it lasts for what runs and all its duties; 1 without any. */
  readonly chance: number
  /** What it holds now, as if what runs had not begun. */
  readonly before: Measured<Grams>
  /** Tail included. */
  readonly left: Measured<Grams>
  /** True where what is left is something, and too little to be useful. */
  readonly stub: boolean
  /** True where the plan opens it. */
  readonly opened: boolean
}

/** The copies of one printer, in order. */
export interface PrinterOrder {
  readonly printer: string
  readonly copies: readonly string[]
  /** How often a reel has to be put on, changes in mid-print not counted. */
  readonly swaps: number
}

/** What a plan is judged by, in this order. */
export const matchLevels = [
  'unserved',
  'late',
  'changes',
  'opened',
  'different',
  'stubs',
  'swaps',
] as const
export type MatchLevel = (typeof matchLevels)[number]

/** How good a plan is at one level; less is better. */
export interface LevelResult {
  readonly level: MatchLevel
  /** For `unserved`: the importance that is meant. */
  readonly importance?: number
  /** Copies; late copies; changes; reels; choices; grams; swaps. */
  readonly value: number
  /** No plan that is as good at all levels before can have less. */
  readonly bound: number
}

/** Which reel for which print. */
export interface MatchPlan {
  readonly confidence: number
  readonly useful_g: number
  readonly served: readonly ServedCopy[]
  readonly unserved: readonly UnservedCopy[]
  /** In the order of the slate. */
  readonly reels: readonly ReelAfter[]
  /** In the order of the slate. */
  readonly orders: readonly PrinterOrder[]
  readonly levels: readonly LevelResult[]
  /** True where every level is proven best. */
  readonly proven: boolean
  /** Why the search ended. */
  readonly ended: 'done' | 'time' | 'cancelled'
}
