import type { ItemLoad, LoadKind, LoadProblem } from './load-problem.ts'

/** What loads of one kind are looked for. */
export interface LoadWish {
  /** For each of the kind's items what having it is worth. */
  readonly worth: readonly number[]
  /** What any load costs that is not empty. */
  readonly fixed: number
  /** Price of the levels of `LoadKind.cost` that do not go item by item: stubs and swaps, ≥ 0. */
  readonly stubs: number
  readonly swaps: number
  /** Only loads of a reduced cost below this are wanted. */
  readonly below: number
  /** Keep so many, the best. */
  readonly most: number
  /** Look at so many loads and no more. */
  readonly effort: number
}

/** A load that was found. */
export interface FoundLoad {
  readonly load: ItemLoad
  readonly cost: Float64Array
  /** Fixed cost, stubs and swaps at their price, less the worth of its items. */
  readonly reduced: number
}

/** What a search came to. */
export interface LoadsFound {
  /** The best first. */
  readonly found: readonly FoundLoad[]
  /** True where none that was wanted is missing, but for `most`. */
  readonly complete: boolean
  /** No load has a lower reduced cost. */
  readonly least: number
}

const stubsAt = 3
const swapsAt = 4

/**
 * Looks for the best loads of one kind, every one of them safe.
 *
 * A search in depth over the kind's items, those worth the most for their weight first. A branch is left
 * when even a load that could cut items (Dantzig's bound of the knapsack by average weight) would not be
 * worth it. Only what is nearly full by weight is long in being judged, and a part of a safe load is taken
 * to be safe, so that an unsafe one ends its branch.
 */
export const searchLoads = (
  { items, groups }: LoadProblem,
  kind: LoadKind,
  wish: LoadWish,
): LoadsFound => {
  const { fixed, stubs, swaps, most } = wish
  // A change that brings a reel where a print begins on it saves putting it on.
  const gainOf = (place: number): number =>
    wish.worth[place]! + (items[kind.items[place]!]!.from > 0 ? swaps : 0)
  const density = (place: number): number => gainOf(place) / Math.max(kind.weights[place]!, 1e-9)
  const order = kind.items
    .map((_, place) => place)
    // What fills a stub up may be worth it though it is worth nothing by itself.
    .filter((place) => stubs > 0 || gainOf(place) > 0)
    .toSorted((a, b) => density(b) - density(a))
  const worth = order.map((place) => wish.worth[place]!)
  const gain = order.map(gainOf)
  const weight = order.map((place) => kind.weights[place]!)
  const itemOf = order.map((place) => kind.items[place]!)
  const base = fixed - stubs * kind.stubAlone
  const left = new Int32Array(groups.map(({ count }) => count))
  const load: number[] = []
  const found: FoundLoad[] = []
  let below = wish.below
  let looked = 0
  let least = Infinity

  /** The most that items from `at` on can add within the room left. */
  const bound = (at: number, room: number): number => {
    let sum = 0
    let space = room
    for (let i = at; i < order.length; i++) {
      const value = gain[i]!
      if (value <= 0) continue
      const times = left[items[itemOf[i]!]!.group]!
      if (times === 0) continue
      const each = weight[i]!
      const fit = each * times <= space ? times : space / each
      sum += value * fit
      if (fit < times) return sum
      space -= each * times
    }
    return sum
  }

  const keep = (reduced: number, cost: Float64Array): void => {
    least = Math.min(least, reduced)
    if (reduced >= below) return
    found.push({ load: load.toSorted((a, b) => a - b), cost, reduced })
    if (found.length < 2 * most) return
    found.sort((a, b) => a.reduced - b.reduced)
    found.length = most
    below = Math.min(below, found.at(-1)!.reduced)
  }

  const grow = (from: number, sum: number, room: number): boolean => {
    for (let i = from; i < order.length; i++) {
      const group = items[itemOf[i]!]!.group
      if (left[group] === 0 || weight[i]! > room) continue
      if (base - sum - bound(i, room) >= below) return true
      if (looked++ >= wish.effort) return false
      load.push(itemOf[i]!)
      if (kind.isSafe(load)) {
        left[group]!--
        const total = sum + worth[i]!
        const cost = kind.cost(load)
        keep(fixed + stubs * cost[stubsAt]! + swaps * cost[swapsAt]! - total, cost)
        const goesOn = grow(left[group]! > 0 ? i : i + 1, total, room - weight[i]!)
        left[group]!++
        if (!goesOn) {
          load.pop()
          return false
        }
      }
      load.pop()
    }
    return true
  }

  const complete = grow(0, 0, kind.capacity)
  found.sort((a, b) => a.reduced - b.reduced)
  found.length = Math.min(found.length, most)
  return {
    found,
    complete,
    // Whatever was cut off lies above what was wanted, or above the bound of all there is.
    least: complete ? Math.min(least, below) : Math.min(least, base - bound(0, kind.capacity)),
  }
}

/** Every safe load of a kind, up to so many; null where there are more. */
export const everyLoad = (
  problem: LoadProblem,
  kind: LoadKind,
  most: number,
): readonly FoundLoad[] | null => {
  const { found, complete } = searchLoads(problem, kind, {
    worth: kind.items.map(() => 1),
    fixed: 0,
    stubs: 0,
    swaps: 0,
    below: Infinity,
    most: most + 1,
    effort: 8 * most,
  })
  return complete && found.length <= most ? found : null
}
