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
  /** What a load costs beside that, ≥ 0; nothing unless given. */
  readonly beside?: ((load: ItemLoad) => number) | undefined
  /** Only loads of a reduced cost below this are wanted. */
  readonly below: number
  /** Keep so many, the best. */
  readonly most: number
  /** Look at so many loads and no more. */
  readonly effort: number
  /** The search is over with so many found; never unless given. */
  readonly enough?: number
  /** Asked now and then; true ends the search. */
  readonly isOver?: () => boolean
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

/** How many loads are looked at between two looks at the clock. */
const patience = 1024

const stubsAt = 3
const swapsAt = 4

/**
 * Looks for the best loads of one kind, every one of them safe.
 *
 * A search in depth over the kind's items, those worth the most for their weight first. A branch is left
 * when even the best load by average weight (a knapsack) would not be worth it. A part of a safe load is
 * taken to be safe, so that an unsafe one ends its branch.
 */
export const searchLoads = (
  { items, groups }: LoadProblem,
  kind: LoadKind,
  wish: LoadWish,
): LoadsFound => {
  const { fixed, stubs, swaps, most, enough = Infinity, beside } = wish
  // A change that brings a reel where a print begins on it saves putting it on.
  const gainOf = (place: number): number =>
    wish.worth[place]! + (items[kind.items[place]!]!.from > 0 ? swaps : 0)
  const density = (place: number): number => gainOf(place) / Math.max(kind.weights[place]!, 1e-9)
  const wanted = kind.items
    .map((_, place) => place)
    // What fills a stub up may be worth it though it is worth nothing by itself; and where loads are wanted
    // that gain nothing, so are those with an item more than need be.
    .filter((place) => stubs > 0 || wish.below > 0 || gainOf(place) > 0)
    .toSorted((a, b) => density(b) - density(a))
  // Items of one place stand together, so that the bound pays once for them.
  const order =
    swaps > 0 ? [...Map.groupBy(wanted, (place) => kind.places[place]!).values()].flat() : wanted
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
  /** Nothing that the search was ended before is less than this. */
  let open = Infinity

  const bound = knapsackBound(
    gain,
    weight,
    itemOf.map((item) => groups[items[item]!.group]!.count),
    order.map((place) => kind.places[place]!),
    swaps,
    kind.capacity,
  )
  const put = new Set<number>([-1])
  const placeOf = order.map((place) => kind.places[place]!)

  const keep = (without: number, cost: Float64Array): void => {
    const reduced = without + (beside?.(load) ?? 0)
    least = Math.min(least, reduced)
    if (reduced >= below) return
    found.push({ load: load.toSorted((a, b) => a - b), cost, reduced })
    if (found.length < 2 * most) return
    found.sort((a, b) => a.reduced - b.reduced)
    found.length = most
    below = Math.min(below, found.at(-1)!.reduced)
  }

  /** Adds items from one on to a load; `paid` is what its being put on costs already. */
  const grow = (from: number, sum: number, room: number, paid: number): boolean => {
    for (let i = from; i < order.length; i++) {
      const group = items[itemOf[i]!]!.group
      if (left[group] === 0 || weight[i]! > room) continue
      if (base + paid - sum - bound(i, room, put.has(placeOf[i]!)) >= below) return true
      const isOver =
        looked++ >= wish.effort ||
        found.length >= enough ||
        (looked % patience === 0 && wish.isOver?.() === true)
      if (isOver) {
        open = Math.min(open, base + paid - sum - bound(i, room, put.has(placeOf[i]!)))
        return false
      }
      load.push(itemOf[i]!)
      if (kind.isSafe(load)) {
        left[group]!--
        const total = sum + worth[i]!
        const cost = kind.cost(load)
        const then = swaps * cost[swapsAt]!
        keep(fixed + stubs * cost[stubsAt]! + swaps * cost[swapsAt]! - total, cost)
        const isNew = !put.has(placeOf[i]!)
        if (isNew) put.add(placeOf[i]!)
        const goesOn = grow(left[group]! > 0 ? i : i + 1, total, room - weight[i]!, then)
        if (isNew) put.delete(placeOf[i]!)
        left[group]!++
        if (!goesOn) {
          load.pop()
          // What would come after it here has not been looked at either.
          open = Math.min(open, base + paid - sum - bound(i, room, put.has(placeOf[i]!)))
          return false
        }
      }
      load.pop()
    }
    return true
  }

  const complete = grow(0, 0, kind.capacity, 0)
  found.sort((a, b) => a.reduced - b.reduced)
  found.length = Math.min(found.length, most)
  return {
    found,
    complete,
    // Whatever was cut off lies above what was wanted, or above the bound of what was left open.
    least: Math.min(least, below, open),
  }
}

/** Every safe load of a kind, up to so many; null where there are more, or it ended before. */
export const everyLoad = (
  problem: LoadProblem,
  kind: LoadKind,
  most: number,
  isOver?: () => boolean,
): readonly FoundLoad[] | null => {
  const { found, complete } = searchLoads(problem, kind, {
    worth: kind.items.map(() => 1),
    fixed: 0,
    stubs: 0,
    swaps: 0,
    below: Infinity,
    most: most + 1,
    effort: 8 * most,
    enough: most + 1,
    ...(isOver && { isOver }),
  })
  return complete && found.length <= most ? found : null
}

/** Cells that the capacity is cut into. */
const cells = 500

/**
 * The most that items from one on can add within some room, what it costs to put the reel on for the first
 * of a place taken off: tables of the knapsack by average weight, weights rounded down to cells, so that
 * they never say too little.
 *
 * @param places - of each item; those of one place stand together
 * @returns asked whether the place of the first item is paid for already
 * @see S. Martello, P. Toth, Knapsack Problems (1990), 2.6 (from memory)
 */
const knapsackBound = (
  gain: readonly number[],
  weight: readonly number[],
  times: readonly number[],
  places: readonly number[],
  toPutOn: number,
  capacity: number,
): ((from: number, room: number, isPaid: boolean) => number) => {
  const size = gain.length
  // What has room for everything needs no cells but one.
  const isWide = !(capacity < weight.reduce((sum, each, i) => sum + each * times[i]!, 0))
  const last = isWide ? 0 : cells
  const cell = isWide ? Infinity : capacity / cells
  const width = last + 1
  const paid = new Float64Array((size + 1) * width)
  const unpaid = new Float64Array((size + 1) * width)
  for (let i = size - 1; i >= 0; i--) {
    const isSame = i + 1 < size && places[i + 1] === places[i]
    const next = (isSame ? paid : unpaid).subarray((i + 1) * width, (i + 2) * width)
    const skipped = unpaid.subarray((i + 1) * width, (i + 2) * width)
    const here = paid.subarray(i * width, (i + 1) * width)
    const begun = unpaid.subarray(i * width, (i + 1) * width)
    here.set(next)
    begun.set(skipped)
    const each = Math.floor(weight[i]! / cell)
    if (gain[i]! > 0) {
      const most = each === 0 ? times[i]! : Math.min(times[i]!, Math.floor(last / each))
      for (let again = 0; again < most; again++) {
        for (let room = last; room >= each; room--) {
          const filled = here[room - each]! + gain[i]!
          if (filled > here[room]!) here[room] = filled
        }
      }
    }
    const cost = places[i]! < 0 ? 0 : toPutOn
    for (let room = 0; room <= last; room++) {
      if (here[room]! - cost > begun[room]!) begun[room] = here[room]! - cost
    }
  }
  return (from, room, isPaid) =>
    (isPaid ? paid : unpaid)[from * width + (isWide ? 0 : Math.max(0, Math.floor(room / cell)))]!
}
