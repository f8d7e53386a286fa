import { type Choice, type Choices, loadsOf, type Serving } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'
import type { Load, LoadJudge } from './load-judge.ts'
import { comparePlans, loadCost } from './plan-value.ts'

/** How often all copies are gone through. */
const mostRounds = 4

/**
 * The same reels for the same copies, the printers changed one copy after the other where that makes the
 * plan better and every load stays safe: most often a reel then stays on one printer. Printers with due
 * times are left as they are.
 */
export const fewerSwaps = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  choices: Choices,
): Choices => {
  const isFree = slate.printers.map((_, printer) =>
    slate.copies.every(({ due_h, printers }) => due_h === null || !printers.includes(printer)),
  )
  const best: (Choice | null)[] = [...choices]
  const loads: Load[] = [...loadsOf(choices, slate.reels.length)]
  const costOf = (reels: readonly number[], of: readonly Load[]): readonly number[] => {
    const sum = [0, 0, 0, 0, 0]
    for (const [i, reel] of reels.entries()) {
      const cost = loadCost(slate, judges[reel]!, reel, of[i]!)
      for (const [at, part] of [
        cost.changes,
        cost.opened,
        cost.different,
        cost.stubs,
        cost.swaps,
      ].entries()) {
        sum[at]! += part
      }
    }
    return sum
  }
  for (let round = 0; round < mostRounds; round++) {
    let isBetter = false
    for (const [place, choice] of best.entries()) {
      const { printers } = slate.copies[place]!
      if (!choice || !isFree[choice.printer]!) continue
      const reels = [...new Set(choice.servings.map(({ reel }) => reel))]
      for (const printer of printers) {
        const { printer: now, servings: had } = best[place]!
        if (printer === now || !isFree[printer]!) continue
        const servings = had.map((serving) => movedTo(slate, serving, printer))
        const moved = reels.map((reel) => [
          ...loads[reel]!.filter(({ copy }) => copy !== place),
          ...servings.flatMap((serving) => (serving.reel === reel ? [serving.piece] : [])),
        ])
        const before = reels.map((reel) => loads[reel]!)
        if (comparePlans(costOf(reels, moved), costOf(reels, before)) >= 0) continue
        if (!reels.every((reel, i) => judges[reel]!.isSafe(moved[i]!))) continue
        best[place] = { printer, servings }
        for (const [i, reel] of reels.entries()) loads[reel] = moved[i]!
        isBetter = true
      }
    }
    if (!isBetter) break
  }
  return best
}

const movedTo = (slate: CompiledSlate, { piece, reel }: Serving, printer: number): Serving => ({
  reel,
  piece: slate
    .piecesOf(piece.task)
    .find((each) => each.printer === printer && each.from === piece.from && each.to === piece.to)!,
})
