import { lastWhere } from './change-cuts.ts'
import type { CompiledSlate, CompiledTask, Piece } from './compiled-slate.ts'
import type { Load, LoadJudge } from './load-judge.ts'

/** The reels that come nearest to doing a task, and what they are short of together. */
export interface NearestReels {
  /** Those that feed before the last, each to the last layer end that it surely reaches. */
  readonly before: readonly { readonly reel: number; readonly untilLayer: number }[]
  /** Place of the last, which is short. */
  readonly reel: number
  /** What the last is short of, g; 0 where they do it. */
  readonly short: number
}

const none: ReadonlySet<number> = new Set()

/** What reels are asked to do as it is. */
export interface Standing {
  readonly judges: readonly LoadJudge[]
  readonly loads: readonly Load[]
}

/** Of the reels that may serve a task so many are looked at for a part of it: those with most left. */
const mostLooked = 4

/**
 * The reels that come nearest to doing a task beside all that they are asked to do: one alone, or several with
 * the planned changes that are allowed.
 *
 * @param without - reels that come not into question
 * @returns null where no reel may serve it
 */
export const nearestReels = (
  compiled: CompiledSlate,
  { judges, loads }: Standing,
  task: CompiledTask,
  without: ReadonlySet<number> = none,
): NearestReels | null => {
  let nearest: NearestReels | null = null
  const look = (piece: Piece, reel: number, before: NearestReels['before']): void => {
    const { value, u } = judges[reel]!.needed(piece)
    // No reel holds less than nothing, whatever its figures leave open.
    const most = Math.min(nearest?.short ?? Infinity, value + 2 * u)
    const short = Math.min(judges[reel]!.short([...loads[reel]!, piece], most), value + 2 * u)
    if (!nearest || short < nearest.short) nearest = { before, reel, short }
  }
  for (const [printer, piece] of task.whole) {
    for (const reel of piece.reels) if (!without.has(reel)) look(piece, reel, [])
    const end = task.nodes.length - 1
    if (end === 1) continue
    const fullest = fullestReels({ judges, loads }, task).filter((reel) => !without.has(reel))
    const goOn = (from: number, before: NearestReels['before']): void => {
      for (const reel of fullest) {
        if (before.some((each) => each.reel === reel)) continue
        const until = (to: number): Piece => compiled.pieceOf(task.place, printer, from, to, reel)
        const own = [...before.map((each) => each.reel), reel]
        if (before.length > 0 && task.locks.every((lock) => own.includes(lock))) {
          look(until(end), reel, before)
        }
        if (own.length > task.mostChanges) continue
        const to = lastWhere(from + 1, end - 1, (at) =>
          judges[reel]!.isSafe([...loads[reel]!, until(at)]),
        )
        if (to === null) continue
        goOn(to, [...before, { reel, untilLayer: task.nodes[to]!.afterLayer! }])
      }
    }
    goOn(0, [])
  }
  return nearest
}

/** Of the reels that may serve a task in parts those with most left, and those that it is locked to. */
export const fullestReels = (
  { judges, loads }: Standing,
  { reels, locks }: CompiledTask,
): readonly number[] =>
  reels
    .map((reel) => ({ reel, left: judges[reel]!.meanLeft(loads[reel]!) }))
    .toSorted((a, b) => b.left - a.left)
    .filter(({ reel }, place) => place < mostLooked || locks.includes(reel))
    .map(({ reel }) => reel)
