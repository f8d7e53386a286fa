/** Levels that loads decide, in the order of `LoadKind.cost`. */
export const loadLevels = ['changes', 'opened', 'different', 'stubs', 'swaps'] as const
export type LoadLevel = (typeof loadLevels)[number]

/** Copies that are alike in everything that matters, so that only their number does. */
export interface LoadGroup {
  readonly count: number
  /** Larger comes first. */
  readonly importance: number
  /** Places of the printers that may do it. */
  readonly printers: readonly number[]
  /** h from now; Infinity for none. */
  readonly due_h: number
  readonly duration_h: number
  /** For each of its tasks how many nodes it has: 2 for one that is never changed. */
  readonly nodes: readonly number[]
}

/** Something that a reel may be asked to do: a task of a group on a printer, or a part of it. */
export interface LoadItem {
  readonly group: number
  /** Place among the group's tasks. */
  readonly task: number
  readonly printer: number
  readonly from: number
  readonly to: number
  /** Whether its copy is to be in time; of a group that is due only, and then there is one for late copies, too. */
  readonly inTime: boolean
}

/** A load: places of items, rising, one as often as it is done. */
export type ItemLoad = readonly number[]

/** Reels that are alike in everything that matters. */
export interface LoadKind {
  readonly count: number
  /** Places of the items that it may serve. */
  readonly items: readonly number[]
  /** For each of `items` what it takes at least on average, g, ≥ 0. */
  readonly weights: readonly number[]
  /** No safe load is heavier, g; Infinity where that is not known. */
  readonly capacity: number
  /** Whether a load is safe. A part of a safe load is taken to be safe. */
  readonly isSafe: (load: ItemLoad) => boolean
  /** What a load adds to each of `loadLevels`, against the reel left alone. */
  readonly cost: (load: ItemLoad) => Float64Array
  /** The part of `cost` at `changes` and `different` that an item brings wherever it stands. */
  readonly itemCost: (item: number) => readonly [changes: number, different: number]
  /**
   * For each of `items` where the reel has to be put on for it, as a number of one's own; items of one
   * place share what that costs. −1 where it costs nothing.
   */
  readonly places: readonly number[]
  /** What any load that is not empty adds to `opened`: 1 for a sealed reel. */
  readonly openedCost: 0 | 1
  /** What the reel left alone adds to `stubs`, g. */
  readonly stubAlone: number
  /** What is left on the reel left alone, g; with a load, that less what its items take. */
  readonly left: number
  /** Hours from now until it is free. */
  readonly free_h: number
  /** For each of `items` what it takes on average, g. */
  readonly takes: readonly number[]
}

/**
 * Which loads to give to which reels: every group's copies are served by loads that hold their tasks,
 * on one printer each. It knows nothing of filament; what makes a load safe and what it costs is handed
 * in.
 */
export interface LoadProblem {
  readonly groups: readonly LoadGroup[]
  readonly items: readonly LoadItem[]
  readonly kinds: readonly LoadKind[]
  /** For each printer, hours from now until it can begin. */
  readonly free_h: readonly number[]
  /** Importances, the highest first. */
  readonly importances: readonly number[]
  /** What a reel in use is left with adds to `stubs` where it is above the one and below the other, g. */
  readonly stub: { readonly above: number; readonly below: number }
  /** How many more swaps the orders of an answer's copies have than its loads alone cost. */
  readonly moreSwaps: (answer: LoadAnswer) => number
  /**
   * Why: groups whose copies as they are served have so many more on their printers, whatever else is done there
   * without a change in mid-print. Where no least order was found nothing is said.
   */
  readonly whyMoreSwaps: (answer: LoadAnswer) => readonly {
    readonly groups: readonly number[]
    readonly more: number
  }[]
  /** What an answer comes to by the clock; left out where nothing can be late. */
  readonly settled?: (answer: LoadAnswer) => SettledAnswer
  /** Whether the level `different` is there. */
  readonly hasEarlier: boolean
}

/** A load in use. */
export interface UsedLoad {
  readonly kind: number
  readonly load: ItemLoad
  /** By how many reels of the kind. */
  readonly times: number
}

/** An answer to a problem. */
export interface LoadAnswer {
  readonly loads: readonly UsedLoad[]
  /** For each group, how many copies are served on which printer, in time (where it is due) or not. */
  readonly served: readonly (readonly {
    readonly printer: number
    readonly inTime: boolean
    readonly copies: number
  }[])[]
}

/** What can not be all together, because copies would not be in time: what reels do, and what copies are. */
export interface Clash {
  /** Items that one reel does, and for each kind whether it is such a reel. Each is of a group of one copy. */
  readonly loads: readonly { readonly items: ItemLoad; readonly kinds: readonly boolean[] }[]
  /** Copies in time on a printer, whatever reels they are on; of groups of one copy. */
  readonly copies: readonly { readonly group: number; readonly printer: number }[]
}

/** An answer held against the clock. */
export interface SettledAnswer {
  /** The same, with those copies in time that are in the best timetable found. */
  readonly answer: LoadAnswer
  /**
   * Where that is fewer than the answer had: why they can not all be, or `unknown` where it was not found out.
   * Null where it is not fewer.
   */
  readonly clash: Clash | 'unknown' | null
}
