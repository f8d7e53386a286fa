import { type Choices, loadsOf, type Serving } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'
import { sameValue } from './plan-value.ts'
import type { LoadMaker } from './reel-load.ts'

/** Choices with each change by itself at the layer end that leaves least as stubs on the two reels it is between. */
export const withLeastStubs = (
  { reels, pieceOf }: CompiledSlate,
  maker: LoadMaker,
  choices: Choices,
): Choices => {
  const serving = (...at: Parameters<typeof pieceOf>): Serving => ({
    piece: pieceOf(...at),
    reel: at[4],
  })
  const loads = loadsOf(choices, reels.length).map((load, reel) => maker.made(reel, load))
  return choices.map((choice) => {
    if (!choice) return null
    const servings = [...choice.servings]
    for (const [i, { piece: next }] of servings.entries()) {
      if (next.from === 0) continue
      const pair = [servings[i - 1]!, servings[i]!] as const
      const without = pair.map(({ piece, reel }) =>
        maker.made(
          reel,
          loads[reel]!.load.filter((each) => each !== piece),
        ),
      )
      let least = pair.reduce((sum, { reel }) => sum + loads[reel]!.cost.stubs, 0)
      const { task, printer } = next
      for (let node = pair[0].piece.from + 1; node < next.to; node++) {
        const cut: readonly Serving[] = [
          serving(task, printer, pair[0].piece.from, node, pair[0].reel),
          serving(task, printer, node, next.to, pair[1].reel),
        ]
        const then = cut.map(({ piece, reel }, k) => maker.grown(reel, without[k]!, piece))
        if (!then.every((load) => load !== null)) continue
        const stubs = then.reduce((sum, { cost }) => sum + cost.stubs, 0)
        if (stubs >= least - sameValue) continue
        least = stubs
        for (const [k, one] of cut.entries()) {
          servings[i - 1 + k] = one
          loads[one.reel] = then[k]!
        }
      }
    }
    return { ...choice, servings }
  })
}

/** What choices leave as stubs, g. */
export const stubsOf = ({ reels }: CompiledSlate, maker: LoadMaker, choices: Choices): number =>
  loadsOf(choices, reels.length).reduce(
    (sum, load, reel) => sum + maker.made(reel, load).cost.stubs,
    0,
  )
