import type { CompiledSlate, CompiledTask } from './compiled-slate.ts'
import { fullestReels, type Standing } from './nearest-reels.ts'

/** Reels that do a task with some chance. */
interface LikelyReels {
  /** By place, in the order in which they feed. */
  readonly reels: readonly number[]
  /** That all last, given that everything else they are asked to do is done before. */
  readonly chance: number
}

/** Layer ends that are looked at for one change before those beside the likeliest are. */
const mostEnds = 60

/**
 * The reel that likeliest does a task beside all that it is asked to do, or the two where a change is allowed
 * and no single one is as likely.
 *
 * @returns null where no reel may serve it
 */
export const likelyReels = (
  compiled: CompiledSlate,
  { judges, loads }: Standing,
  task: CompiledTask,
): LikelyReels | null => {
  let best: LikelyReels | null = null
  const look = (reels: readonly number[], chance: number): void => {
    if (!best || chance > best.chance) best = { reels, chance }
  }
  for (const [printer, piece] of task.whole) {
    for (const reel of piece.reels) look([reel], judges[reel]!.chance([...loads[reel]!, piece]))
    const end = task.nodes.length - 1
    const step = Math.max(1, Math.ceil((end - 1) / mostEnds))
    const fullest = fullestReels({ judges, loads }, task)
    for (const first of fullest) {
      for (const second of fullest) {
        if (first === second) continue
        if (!task.locks.every((lock) => lock === first || lock === second)) continue
        const chanceOf = (reel: number, from: number, to: number): number =>
          judges[reel]!.chance([
            ...loads[reel]!,
            compiled.pieceOf(task.place, printer, from, to, reel),
          ])
        let [likeliest, chance] = [1, 0]
        const tryEnds = (from: number, to: number, by: number): void => {
          for (let at = Math.max(1, from); at <= Math.min(to, end - 1); at += by) {
            const there = chanceOf(first, 0, at) * chanceOf(second, at, end)
            if (there > chance) [likeliest, chance] = [at, there]
          }
        }
        tryEnds(1, end - 1, step)
        if (step > 1) tryEnds(likeliest - step + 1, likeliest + step - 1, 1)
        look([first, second], chance)
      }
    }
  }
  return best
}
