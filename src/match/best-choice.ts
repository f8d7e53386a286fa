import { lastWhere } from './change-cuts.ts'
import type { Choice, Serving } from './choice.ts'
import type { CompiledCopy, CompiledSlate, CompiledTask } from './compiled-slate.ts'
import type { LoadMaker, ReelLoad } from './reel-load.ts'

/** How a copy is to be put beside what reels do already. */
export interface ChoiceWish {
  /** Places of the printers that may do it; those of the copy unless given. */
  readonly printers?: readonly number[]
  /** Of reels that are as good, the one left with least, or with most. */
  readonly leaves?: 'least' | 'most'
  /** Whether how often reels are put on is no matter; it counts unless given. */
  readonly ignoresSwaps?: boolean
  /** Whether only reels may serve it that are asked nothing else, so that it waits for none; any unless given. */
  readonly idle?: boolean
}

/** A choice, and what its reels do with it. */
export interface ChoiceMade extends Choice {
  readonly after: ReadonlyMap<number, ReelLoad>
}

/** How a piece might be served, and what that is worth. */
interface Offer {
  readonly servings: readonly Serving[]
  readonly after: ReadonlyMap<number, ReelLoad>
  /** What it adds to each of `allCosts`, and what is left, g; less is better. */
  readonly worth: readonly number[]
}

const allCosts = ['changes', 'opened', 'different', 'stubs', 'swaps'] as const
const leftAt = allCosts.length

/** A copy to be put somewhere, and where things stand. */
interface Placing {
  readonly slate: CompiledSlate
  readonly maker: LoadMaker
  /** What each reel does already, by place. */
  readonly loads: readonly ReelLoad[]
  readonly leaves: 1 | -1
  readonly costs: readonly (typeof allCosts)[number][]
}

/**
 * The way to serve a copy that adds least to each level in turn beside what reels do already; null where
 * there is none.
 */
export const bestChoice = (
  slate: CompiledSlate,
  maker: LoadMaker,
  loads: readonly ReelLoad[],
  copy: CompiledCopy,
  {
    printers = copy.printers,
    leaves = 'least',
    ignoresSwaps = false,
    idle = false,
  }: ChoiceWish = {},
): ChoiceMade | null => {
  const placing: Placing = {
    slate,
    maker,
    loads,
    leaves: leaves === 'least' ? 1 : -1,
    costs: ignoresSwaps ? allCosts.slice(0, -1) : allCosts,
  }
  const busy = idle ? [...loads.keys()].filter((reel) => loads[reel]!.load.length > 0) : []
  let best: (ChoiceMade & { readonly worth: readonly number[] }) | null = null
  for (const printer of printers) {
    const servings: Serving[] = []
    const after = new Map<number, ReelLoad>()
    const worth: number[] = Array.from({ length: leftAt + 1 }, () => 0)
    for (const task of copy.tasks) {
      const offer = bestOffer(placing, task, printer, new Set([...busy, ...after.keys()]))
      if (!offer) break
      servings.push(...offer.servings)
      for (const [reel, load] of offer.after) after.set(reel, load)
      for (const [i, part] of offer.worth.entries()) worth[i]! += part
    }
    const isServed = copy.tasks.every(({ place }) =>
      servings.some(({ piece }) => piece.task === place),
    )
    if (isServed && (!best || isLess(worth, best.worth))) best = { printer, servings, after, worth }
  }
  return best && { printer: best.printer, servings: best.servings, after: best.after }
}

const bestOffer = (
  placing: Placing,
  task: CompiledTask,
  printer: number,
  taken: ReadonlySet<number>,
): Offer | null => {
  const whole = task.whole.get(printer)!
  const { loads, maker } = placing
  /** Of reels that are alike and do nothing yet one is enough. */
  const untouched = new Set<string>()
  const offers = whole.reels.flatMap((reel) => {
    if (taken.has(reel)) return []
    if (loads[reel]!.load.length === 0) {
      if (untouched.has(maker.alike[reel]!)) return []
      untouched.add(maker.alike[reel]!)
    }
    return offerOf(placing, [{ piece: whole, reel }]) ?? []
  })
  if (offers.length === 0 && task.mostChanges > 0) {
    offers.push(...changedOffers(placing, task, printer, taken))
  }
  return offers.reduce<Offer | null>(
    (best, offer) => (best && !isLess(offer.worth, best.worth) ? best : offer),
    null,
  )
}

/** Every pair of reels with the change as late as is safe, and from there on once more. */
const changedOffers = (
  placing: Placing,
  task: CompiledTask,
  printer: number,
  taken: ReadonlySet<number>,
): readonly Offer[] => {
  const { slate, maker, loads } = placing
  const { cuts } = task
  const end = task.nodes.length - 1
  const found: Offer[] = []
  const go = (node: number, firstCut: number, servings: readonly Serving[]): void => {
    for (const reel of task.reels) {
      if (taken.has(reel) || servings.some((one) => one.reel === reel)) continue
      const until = (to: number): Serving => ({
        piece: slate.pieceOf(task.place, printer, node, to, reel),
        reel,
      })
      const chain = [...servings, until(end)]
      const isKept = task.locks.every((lock) => chain.some((one) => one.reel === lock))
      const offer = node > 0 && isKept && offerOf(placing, chain)
      if (offer) {
        found.push(offer)
        continue
      }
      if (servings.length === task.mostChanges) continue
      const cut = lastWhere(firstCut, cuts.length - 1, (at) =>
        maker.grown(reel, loads[reel]!, until(cuts[at]!.first).piece),
      )
      if (cut === null) continue
      const to = cuts[cut]!.first
      go(to, cut + 1, [...servings, until(to)])
    }
  }
  go(0, 0, [])
  return found
}

/** Null where a reel would be asked too much; each reel serves one of the pieces. */
const offerOf = (
  { maker, loads, leaves, costs }: Placing,
  servings: readonly Serving[],
): Offer | null => {
  const worth: number[] = Array.from({ length: leftAt + 1 }, () => 0)
  const after = new Map<number, ReelLoad>()
  for (const { piece, reel } of servings) {
    const before = loads[reel]!
    const then = maker.grown(reel, before, piece)
    if (!then) return null
    after.set(reel, then)
    for (const [i, part] of costs.entries()) worth[i]! += then.cost[part] - before.cost[part]
    worth[leftAt]! += leaves * then.cost.left
  }
  return { servings, after, worth }
}

/** Grams nearer than this are the same. */
const sameGrams = 1e-6

const isLess = (a: readonly number[], b: readonly number[]): boolean => {
  const first = a.findIndex((value, i) => Math.abs(value - b[i]!) > sameGrams)
  return first >= 0 && a[first]! < b[first]!
}
