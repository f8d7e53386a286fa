import type { Choice, Serving } from '../../src/match/choice.ts'
import { loadsOf } from '../../src/match/choice.ts'
import {
  type CompiledCopy,
  type CompiledSlate,
  compileSlate,
} from '../../src/match/compiled-slate.ts'
import type { MatchSlate } from '../../src/match/index.ts'
import { loadJudge } from '../../src/match/load-judge.ts'
import { comparePlans, planValue } from '../../src/match/plan-value.ts'

/** Every way to serve a copy, whatever else is asked of the reels. */
const waysOf = (slate: CompiledSlate, copy: CompiledCopy): readonly Choice[] =>
  copy.printers.flatMap((printer) => {
    let ways: readonly (readonly Serving[])[] = [[]]
    for (const { place, nodes, mostChanges } of copy.tasks) {
      const last = nodes.length - 1
      const pieces = slate.piecesOf(place).filter((piece) => piece.printer === printer)
      const chains = (from: number, before: readonly Serving[]): readonly (readonly Serving[])[] =>
        pieces
          .filter((piece) => piece.from === from)
          .flatMap((piece) =>
            piece.reels
              .filter((reel) => !before.some((one) => one.reel === reel))
              .flatMap((reel) => {
                const servings = [...before, { piece, reel }]
                const own = servings.filter((one) => one.piece.task === place).length
                if (own > mostChanges + 1) return []
                return piece.to === last ? [servings] : chains(piece.to, servings)
              }),
          )
      ways = ways.flatMap((before) => chains(0, before))
    }
    return ways.map((servings) => ({ printer, servings }))
  })

/** The best plan by looking at every one there is: what the match is held against. */
export const bestOfEveryPlan = (
  asked: MatchSlate,
): { readonly value: readonly number[]; readonly looked: number } => {
  const slate = compileSlate(asked)
  const judges = slate.reels.map((_, reel) => loadJudge(slate, reel))
  const ways = slate.copies.map((copy): readonly (Choice | null)[] => [
    null,
    ...waysOf(slate, copy),
  ])
  let best: readonly number[] | null = null
  let looked = 0
  const choices: (Choice | null)[] = slate.copies.map(() => null)
  const look = (copy: number): void => {
    if (copy === ways.length) {
      looked++
      const isSafe = loadsOf(choices, slate.reels.length).every((load, reel) =>
        judges[reel]!.isSafe(load),
      )
      if (!isSafe) return
      const value = planValue(slate, judges, choices)
      if (!best || comparePlans(value, best) < 0) best = value
      return
    }
    for (const way of ways[copy]!) {
      choices[copy] = way
      const served = loadsOf(choices, slate.reels.length)
      // What is too much for a reel stays so, whatever comes.
      const isSafe = (way?.servings ?? []).every(({ reel }) => judges[reel]!.isSafe(served[reel]!))
      if (isSafe) look(copy + 1)
    }
    choices[copy] = null
  }
  look(0)
  return { value: best!, looked }
}
