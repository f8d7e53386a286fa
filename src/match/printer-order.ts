import { joined } from './joined.ts'
import { instant } from './print-job.ts'
import { fewestSwaps, keepsReels, type OrderItem, putOn, type ReelsOn } from './reels-on.ts'

/** Copies in an order, and what comes of it. */
export interface OrderedItems {
  readonly items: readonly OrderItem[]
  /** Copies that end after their due time. */
  readonly late: number
  /** Reels put on between prints; those on it at first are none. */
  readonly swaps: number
  /** Whether no order is better. */
  readonly isLeast: boolean
}

/** What has been done so far. */
interface Sofar {
  readonly order: readonly number[]
  readonly late: number
  readonly swaps: number
  readonly on: ReelsOn
}

/** Up to so many copies every order is looked at, in effect. */
const exactOrder = 9

/**
 * The best order of the copies of one printer as if no reel were ever on another: the fewest late ones, then the
 * fewest swaps. It is exact where what has to be looked at together is no more than `exactOrder`.
 *
 * @param free_h - when the printer is free
 */
export const orderOf = (
  items: readonly OrderItem[],
  atFirst: ReelsOn,
  free_h: number,
): OrderedItems => {
  const ends_h = items.reduce((sum, { duration_h }) => sum + duration_h, free_h)
  const canBeLate = items.some(({ due_h }) => ends_h > due_h + instant)
  return canBeLate ? orderedAll(items, atFirst, free_h) : orderAtLeisure(items, atFirst)
}

/**
 * The sequence of copies of one or more printers with the fewest swaps, were none due. It is put together of
 * groups of copies that share a reel on a tool, and of those few in each that decide: another that needs no reel
 * put on beside one of them stands beside it.
 */
export const orderAtLeisure = (items: readonly OrderItem[], atFirst: ReelsOn): OrderedItems => {
  const isOn = ({ tools }: OrderItem): boolean =>
    tools.every(({ at, reels }) => atFirst[at] === reels[0])
  const first = items.filter((item) => keepsReels(item) && isOn(item))
  const groups = joined(
    items.filter((item) => !first.includes(item)).map((item) => [item]),
    pairsOf,
  )
  // What is on at first is of use to some, who may take it from each other; what others leave on is to none.
  const onPairs = new Set(atFirst.map((reel, at) => `${at} ${reel}`))
  const [using, others] = [
    groups.filter((group) => group.flatMap(pairsOf).some((pair) => onPairs.has(pair))),
    groups.filter((group) => !group.flatMap(pairsOf).some((pair) => onPairs.has(pair))),
  ]
  const nothing = atFirst.map(() => -1)
  const ordered = [
    ...joined(using, placesAndReelsOf).map((group) => orderedGroup(group, atFirst)),
    ...others.map((group) => orderedGroup(group, nothing)),
  ]
  return {
    items: [...first, ...ordered.flatMap((each) => each.items)],
    late: 0,
    swaps: ordered.reduce((sum, { swaps }) => sum + swaps, 0),
    isLeast: ordered.every(({ isLeast }) => isLeast),
  }
}

const pairsOf = ({ tools }: OrderItem): readonly string[] =>
  tools.flatMap(({ at, reels }) => [`${at} ${reels[0]}`, `${at} ${reels.at(-1)}`])

const placesAndReelsOf = ({ tools }: OrderItem): readonly string[] =>
  tools.flatMap(({ at, reels }) => [`at ${at}`, ...reels.map((reel) => `reel ${reel}`)])

const orderedGroup = (items: readonly OrderItem[], atFirst: ReelsOn): OrderedItems => {
  const { deciding, beside } = decidingOf(items)
  // Whenever it is done, none of them is late.
  const ordered = orderedAll(deciding, atFirst, -Infinity)
  return { ...ordered, items: ordered.items.flatMap((item) => beside.get(item)!) }
}

/** @param free_h - when the one printer is free */
const orderedAll = (
  items: readonly OrderItem[],
  atFirst: ReelsOn,
  free_h: number,
): OrderedItems => {
  const start: Sofar = { order: [], late: 0, swaps: 0, on: atFirst }
  const isFew = items.length <= exactOrder
  const { order, late, swaps } = (isFew ? bestOrder : improvedOrder)(items, start, free_h)
  return {
    items: order.map((at) => items[at]!),
    late,
    swaps,
    // Even of many no more are late than have to be.
    isLeast: isFew || swaps === fewestSwaps(items, atFirst),
  }
}

/**
 * The copies of a group whose order decides, with those that may stand beside each, itself among them: a
 * copy that keeps its reels needs none put on beside one that has them on when it begins or ends, and without
 * it the rest of an order needs no more.
 */
const decidingOf = (items: readonly OrderItem[]) => {
  const deciding: OrderItem[] = []
  const beside = new Map<OrderItem, readonly OrderItem[]>()
  // Those of most tools first: others stand beside them.
  for (const item of items.toSorted((a, b) => b.tools.length - a.tools.length)) {
    const standsBy = (other: OrderItem, when: 0 | -1): boolean =>
      item.tools.every((own) =>
        other.tools.some((each) => each.at === own.at && each.reels.at(when) === own.reels[0]),
      )
    const keeps = keepsReels(item)
    const before = keeps ? deciding.find((other) => standsBy(other, 0)) : undefined
    const behind = keeps ? deciding.find((other) => standsBy(other, -1)) : undefined
    if (behind) beside.set(behind, [...beside.get(behind)!, item])
    else if (before) beside.set(before, [item, ...beside.get(before)!])
    else {
      deciding.push(item)
      beside.set(item, [item])
    }
  }
  return { deciding, beside }
}

const isBetter = (a: Pick<Sofar, 'late' | 'swaps'>, b: Pick<Sofar, 'late' | 'swaps'>): boolean =>
  a.late < b.late || (a.late === b.late && a.swaps < b.swaps)

const after = (sofar: Sofar, item: OrderItem, place: number, ends_h: number): Sofar => {
  const on = [...sofar.on]
  const swaps = sofar.swaps + putOn(on, item)
  const late = sofar.late + Number(ends_h > item.due_h + instant)
  return { order: [...sofar.order, place], late, swaps, on }
}

/**
 * Every order in effect: after the same set of copies with the same reels on, only the best beginning
 * matters, for when the set ends does not hang on its order.
 */
const bestOrder = (items: readonly OrderItem[], start: Sofar, free_h: number): Sofar => {
  const all = (1 << items.length) - 1
  const layers = new Map<number, Map<string, Sofar>>([[0, new Map([['', start]])]])
  for (let set = 0; set < all; set++) {
    const states = layers.get(set)
    if (!states) continue
    layers.delete(set)
    const done = items.reduce(
      (sum, { duration_h }, i) => sum + ((set >> i) & 1) * duration_h,
      free_h,
    )
    for (const sofar of states.values()) {
      for (const [i, item] of items.entries()) {
        if ((set >> i) & 1) continue
        const next = after(sofar, item, i, done + item.duration_h)
        const key = next.on.join(' ')
        const of = layers.get(set | (1 << i)) ?? new Map<string, Sofar>()
        layers.set(set | (1 << i), of)
        const known = of.get(key)
        if (!known || isBetter(next, known)) of.set(key, next)
      }
    }
  }
  return [...(layers.get(all)?.values() ?? [start])].reduce((a, b) => (isBetter(b, a) ? b : a))
}

/** What an order comes to. */
interface Tally {
  readonly order: readonly number[]
  readonly late: number
  readonly swaps: number
}

/** The fewest late by Moore and Hodgson's rule, then moved about while swaps get fewer. */
const improvedOrder = (items: readonly OrderItem[], start: Sofar, free_h: number): Tally => {
  const run = (order: readonly number[]): Tally => {
    const on = [...start.on]
    let now = free_h
    let late = 0
    let swaps = 0
    for (const i of order) {
      const item = items[i]!
      now += item.duration_h
      if (now > item.due_h + instant) late++
      swaps += putOn(on, item)
    }
    return { order, late, swaps }
  }
  let best = run(onTimeFirst(items, free_h))
  const grouped = run(grouping(best.order, items, start))
  if (isBetter(grouped, best)) best = grouped
  const fewest = fewestSwaps(items, start.on)
  for (let round = 0; best.swaps > fewest && round < mostRounds; round++) {
    const before = best
    for (let from = 0; from < items.length; from++) {
      for (let to = 0; to < items.length; to++) {
        if (from === to) continue
        const moved = run(best.order.toSpliced(from, 1).toSpliced(to, 0, best.order[from]!))
        if (isBetter(moved, best)) best = moved
      }
    }
    if (best === before) break
  }
  return best
}

/** How often all copies of a long order are moved about. */
const mostRounds = 3

/** Those that share their first reels beside each other, what is on at first before the rest. */
const grouping = (
  order: readonly number[],
  items: readonly OrderItem[],
  { on }: Sofar,
): readonly number[] => {
  const groups = Map.groupBy(order, (i) =>
    items[i]!.tools.map(({ at, reels }) => `${at} ${reels[0]}`).join(';'),
  )
  const isOn = ([i]: readonly number[]): number =>
    Number(items[i!]!.tools.every(({ at, reels }) => on[at] === reels[0]))
  return [...groups.values()].toSorted((a, b) => isOn(b) - isOn(a)).flat()
}

/**
 * By due time, and where one would be late the longest so far is put to the end.
 *
 * @see J. M. Moore, Management Science 15 (1968) 102–109 (from memory)
 */
const onTimeFirst = (items: readonly OrderItem[], free_h: number): readonly number[] => {
  const byDue = items.map((_, i) => i).toSorted((a, b) => items[a]!.due_h - items[b]!.due_h)
  const inTime: number[] = []
  const late: number[] = []
  let now = free_h
  for (const i of byDue) {
    inTime.push(i)
    now += items[i]!.duration_h
    if (now <= items[i]!.due_h + instant) continue
    const longest = inTime.reduce((a, b) => (items[b]!.duration_h > items[a]!.duration_h ? b : a))
    inTime.splice(inTime.indexOf(longest), 1)
    late.push(longest)
    now -= items[longest]!.duration_h
  }
  return [...inTime, ...late]
}
