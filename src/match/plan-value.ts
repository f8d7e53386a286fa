import { type Choices, loadsOf } from './choice.ts'
import type { CompiledSlate, Piece } from './compiled-slate.ts'
import type { Load, LoadJudge } from './load-judge.ts'
import type { MatchLevel } from './match-plan.ts'
import { timetableOf } from './timetable.ts'

/** One level of a slate's plans; `unserved` comes once for each importance, the highest first. */
export interface Level {
  readonly level: MatchLevel
  readonly importance?: number
}

/** What a load adds to the levels that loads decide; each least is best. */
export interface LoadCost {
  readonly changes: number
  readonly opened: number
  readonly different: number
  /** g */
  readonly stubs: number
  /** Times the reel has to be put on, if it is left on while it can be. */
  readonly swaps: number
  /** What is left on the reel, g; no level. */
  readonly left: number
}

/** The levels of a slate, in order. */
export const levelsOf = ({ copies, earlier }: CompiledSlate): readonly Level[] => {
  const importances = [...new Set(copies.map(({ importance }) => importance))]
  return [
    ...importances
      .toSorted((a, b) => b - a)
      .map((importance): Level => ({ level: 'unserved', importance })),
    { level: 'late' },
    { level: 'changes' },
    { level: 'opened' },
    ...(earlier.size > 0 ? [{ level: 'different' } as const] : []),
    { level: 'stubs' },
    { level: 'swaps' },
  ]
}

/** What is left counts as nothing below this, g: no scale on a bench shows it. */
export const nothingLeft = 0.05

/** The mass of what is left, g, where it is too little to be useful; 0 otherwise. */
export const stubOf = ({ useful_g }: CompiledSlate, left_g: number): number =>
  left_g > nothingLeft && left_g < useful_g ? left_g : 0

/** What a load on a reel costs. */
export const loadCost = (
  slate: CompiledSlate,
  judge: LoadJudge,
  reel: number,
  load: Load,
): LoadCost => {
  const { sealed } = slate.reels[reel]!
  const left = judge.meanLeft(load)
  return {
    changes: load.filter(({ from }) => from > 0).length,
    opened: Number(sealed && load.length > 0),
    different: load.filter((piece) => isDifferent(slate, reel, piece)).length,
    stubs: sealed && load.length === 0 ? 0 : stubOf(slate, left),
    swaps: placesPutOn(slate, reel, load).size,
    left,
  }
}

/** Whether the earlier plan served the piece's task otherwise. */
export const isDifferent = ({ earlier }: CompiledSlate, reel: number, piece: Piece): boolean => {
  const before = earlier.get(piece.task)
  return (
    before !== undefined &&
    !before.some((each) => each.reel === reel && each.printer === piece.printer)
  )
}

/** Where the reel has to be put on for a print to begin with the piece; −1 where it need not be. */
export const placePutOn = (
  { printers, reels }: CompiledSlate,
  reel: number,
  { printer, tool, from }: Piece,
): number =>
  from > 0 || printers[printer]!.loaded?.[tool] === reels[reel]!.id
    ? -1
    : printer + printers.length * tool

/** Where a reel has to be put on, each place once, if it is left on while it can be: a change leaves it on as well. */
export const placesPutOn = (
  slate: CompiledSlate,
  reel: number,
  load: Load,
): ReadonlySet<number> => {
  const places = new Set<number>()
  for (const piece of load) places.add(placePutOn(slate, reel, piece))
  places.delete(-1)
  for (const { printer, tool, from } of load) {
    if (from > 0) places.delete(printer + slate.printers.length * tool)
  }
  return places
}

/**
 * How good choices are, one number a level, each least is best. The timetable is the best found for these
 * choices.
 */
export const planValue = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  choices: Choices,
): readonly number[] => {
  const costs = loadsOf(choices, slate.reels.length).map((load, reel) =>
    loadCost(slate, judges[reel]!, reel, load),
  )
  const { late, swaps } = timetableOf(slate, choices)
  const sum = (part: (cost: LoadCost) => number): number =>
    costs.reduce((total, cost) => total + part(cost), 0)
  return levelsOf(slate).map(({ level, importance }): number => {
    if (level === 'unserved') {
      return choices.filter(
        (choice, copy) => choice === null && slate.copies[copy]!.importance === importance,
      ).length
    }
    if (level === 'late') return late.size
    if (level === 'swaps') return swaps
    return sum((cost) => cost[level])
  })
}
/** Below this two values of a level are the same: grams are not known better. */
export const sameValue = 1e-6

/** Negative where a is better, at the first level at which they differ. */
export const comparePlans = (a: readonly number[], b: readonly number[]): number => {
  for (const [i, value] of a.entries()) {
    if (Math.abs(value - b[i]!) > sameValue) return value - b[i]!
  }
  return 0
}
