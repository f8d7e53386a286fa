import type { Choice, Choices } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'
import { instant } from './print-job.ts'

/** The copies of one printer in an order, and what comes of it. */
export interface OrderedCopies {
  readonly printer: number
  /** Places of the copies. */
  readonly copies: readonly number[]
  /** Copies that end after their due time. */
  readonly late: number
  /** Reels put on between prints; those on it at first are none. */
  readonly swaps: number
  /** Whether no order is better. */
  readonly isLeast: boolean
}

/** What one copy means for the order along its printer. */
export interface OrderItem {
  readonly copy: number
  readonly duration_h: number
  readonly due_h: number
  /** For each of its tools the reel it begins with and the reel it ends with. */
  readonly tools: readonly {
    readonly tool: number
    readonly first: number
    readonly last: number
  }[]
}

/** What a printer has done so far. */
interface Sofar {
  readonly order: readonly number[]
  readonly late: number
  readonly swaps: number
  readonly loaded: ReadonlyMap<number, number>
}

/** Up to so many copies every order is looked at, in effect. */
const exactOrder = 9

/**
 * Orders the copies of every printer, each by itself, as if no reel were ever on another: the fewest late
 * ones, then the fewest swaps.
 */
export const orderPrinters = (slate: CompiledSlate, choices: Choices): readonly OrderedCopies[] =>
  slate.printers.map((_, printer) => {
    const items = choices.flatMap((choice, copy) =>
      choice?.printer === printer ? [orderItem(slate, copy, choice)] : [],
    )
    return orderOf(slate, printer, items)
  })

export const orderItem = (slate: CompiledSlate, copy: number, choice: Choice): OrderItem => {
  const { duration_h, due_h, tasks } = slate.copies[copy]!
  return {
    copy,
    duration_h: duration_h ?? 0,
    due_h: due_h ?? Infinity,
    tools: tasks.map(({ tool, place }) => {
      const own = choice.servings.filter(({ piece }) => piece.task === place)
      return { tool, first: own[0]!.reel, last: own.at(-1)!.reel }
    }),
  }
}

/**
 * The best order of some copies on one printer. Where none can be late it is put together of groups of
 * copies that share reels, and of those few that decide each: another that needs no reel put on beside one of
 * them stands beside it. It is exact where what has to be looked at together is no more than `exactOrder`.
 */
export const orderOf = (
  slate: CompiledSlate,
  printer: number,
  items: readonly OrderItem[],
): OrderedCopies => {
  const { free_h = 0 } = slate.printers[printer]!
  const start: Sofar = { order: [], late: 0, swaps: 0, loaded: loadedAtFirst(slate, printer) }
  const ends_h = items.reduce((sum, { duration_h }) => sum + duration_h, free_h)
  const canBeLate = items.some(({ due_h }) => ends_h > due_h + instant)
  const groups = canBeLate ? [items] : sharingReels(items, start)
  const order: OrderItem[] = []
  let late = 0
  let swaps = 0
  let isLeast = true
  for (const [i, group] of groups.entries()) {
    // What other groups leave on is of no use to it.
    const before = i === 0 ? start : { ...start, loaded: new Map<number, number>() }
    const { first, deciding, beside } = canBeLate
      ? { first: [], deciding: group, beside: new Map<OrderItem, readonly OrderItem[]>() }
      : decidingOf(group, before)
    const isFew = deciding.length <= exactOrder
    const best = (isFew ? bestOrder : improvedOrder)(deciding, before, free_h)
    order.push(...first, ...best.order.flatMap((at) => beside.get(deciding[at]!) ?? deciding[at]!))
    late += best.late
    swaps += best.swaps
    isLeast &&= isFew || (!canBeLate && best.swaps === fewestSwaps(deciding, before.loaded))
  }
  return { printer, copies: order.map(({ copy }) => copy), late, swaps, isLeast }
}

/** Which reel, by place, is on each tool of a printer at first. */
export const loadedAtFirst = (
  { printers, reels }: CompiledSlate,
  printer: number,
): ReadonlyMap<number, number> => {
  const loaded = Object.entries(printers[printer]!.loaded ?? {})
  return new Map(
    loaded.map(([tool, id]) => [Number(tool), reels.findIndex((reel) => reel.id === id)]),
  )
}

/** Copies in groups that share no reel on a tool; the first shares those that are on at first. */
const sharingReels = (
  items: readonly OrderItem[],
  { loaded }: Sofar,
): readonly (readonly OrderItem[])[] => {
  let groups: { items: OrderItem[]; reels: Set<string> }[] = [
    { items: [], reels: new Set([...loaded].map(([tool, reel]) => `${tool} ${reel}`)) },
  ]
  for (const item of items) {
    const reels = new Set(
      item.tools.flatMap(({ tool, first, last }) => [`${tool} ${first}`, `${tool} ${last}`]),
    )
    const [meets, apart] = [
      groups.filter((group) => !group.reels.isDisjointFrom(reels)),
      groups.filter((group) => group.reels.isDisjointFrom(reels)),
    ]
    const [into = { items: [], reels: new Set<string>() }, ...others] = meets
    for (const each of [{ items: [item], reels }, ...others]) {
      into.items.push(...each.items)
      into.reels = into.reels.union(each.reels)
    }
    // The group of what is on at first stays the first.
    groups = groups[0] === into ? [into, ...apart] : [...apart, into]
  }
  return groups.map((group) => group.items)
}

/**
 * The copies of a group whose order decides, with those that may stand beside each, itself among them: a
 * copy that keeps its reels needs none put on beside one that has them on when it begins or ends, and without
 * it the rest of an order needs no more.
 */
const decidingOf = (items: readonly OrderItem[], { loaded }: Sofar) => {
  const keeps = ({ tools }: OrderItem): boolean => tools.every(({ first, last }) => first === last)
  const first = items.filter(
    (item) => keeps(item) && item.tools.every((each) => loaded.get(each.tool) === each.first),
  )
  const deciding: OrderItem[] = []
  const beside = new Map<OrderItem, readonly OrderItem[]>()
  // Those of most tools first: others stand beside them.
  for (const item of items.toSorted((a, b) => b.tools.length - a.tools.length)) {
    if (first.includes(item)) continue
    const standsBy = (other: OrderItem, when: 'first' | 'last'): boolean =>
      item.tools.every((own) =>
        other.tools.some((each) => each.tool === own.tool && each[when] === own.first),
      )
    const before = keeps(item) ? deciding.find((other) => standsBy(other, 'first')) : undefined
    const behind = keeps(item) ? deciding.find((other) => standsBy(other, 'last')) : undefined
    if (behind) beside.set(behind, [...beside.get(behind)!, item])
    else if (before) beside.set(before, [item, ...beside.get(before)!])
    else {
      deciding.push(item)
      beside.set(item, [item])
    }
  }
  return { first, deciding, beside }
}

const isBetter = (a: Pick<Sofar, 'late' | 'swaps'>, b: Pick<Sofar, 'late' | 'swaps'>): boolean =>
  a.late < b.late || (a.late === b.late && a.swaps < b.swaps)

const after = (sofar: Sofar, item: OrderItem, place: number, ends_h: number): Sofar => {
  let { swaps } = sofar
  const loaded = new Map(sofar.loaded)
  for (const { tool, first, last } of item.tools) {
    if (loaded.get(tool) !== first) swaps++
    loaded.set(tool, last)
  }
  const late = sofar.late + Number(ends_h > item.due_h + instant)
  return { order: [...sofar.order, place], late, swaps, loaded }
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
        const key = [...next.loaded].toSorted(([a], [b]) => a - b).join(';')
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
  const on = new Map<number, number>()
  const run = (order: readonly number[]): Tally => {
    on.clear()
    for (const [tool, reel] of start.loaded) on.set(tool, reel)
    let now = free_h
    let late = 0
    let swaps = 0
    for (const i of order) {
      const { duration_h, due_h, tools } = items[i]!
      now += duration_h
      if (now > due_h + instant) late++
      for (const { tool, first, last } of tools) {
        if (on.get(tool) !== first) swaps++
        on.set(tool, last)
      }
    }
    return { order, late, swaps }
  }
  let best = run(onTimeFirst(items, free_h))
  const grouped = run(grouping(best.order, items, start))
  if (isBetter(grouped, best)) best = grouped
  const fewest = fewestSwaps(items, start.loaded)
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

/** How often a reel is put on along an order on a printer. */
export const swapsAlong = (
  slate: CompiledSlate,
  printer: number,
  order: readonly OrderItem[],
): number => {
  const on = new Map(loadedAtFirst(slate, printer))
  let swaps = 0
  for (const { tool, first, last } of order.flatMap(({ tools }) => tools)) {
    if (on.get(tool) !== first) swaps++
    on.set(tool, last)
  }
  return swaps
}

/** How often all copies of a long order are moved about. */
const mostRounds = 3

/** A reel has to be put on at least once where it is neither on at first nor brought by a change. */
export const fewestSwaps = (
  items: readonly OrderItem[],
  loaded: ReadonlyMap<number, number>,
): number => {
  const wanted = new Set<string>()
  const there = new Set([...loaded].map(([tool, reel]) => `${tool} ${reel}`))
  for (const { tool, first, last } of items.flatMap(({ tools }) => tools)) {
    wanted.add(`${tool} ${first}`)
    if (last !== first) there.add(`${tool} ${last}`)
  }
  return wanted.difference(there).size
}

/** Those that share their first reels beside each other, what is on at first before the rest. */
const grouping = (
  order: readonly number[],
  items: readonly OrderItem[],
  { loaded }: Sofar,
): readonly number[] => {
  const groups = Map.groupBy(order, (i) => items[i]!.tools.map(({ first }) => first).join(';'))
  const isOn = ([i]: readonly number[]): number =>
    Number(items[i!]!.tools.every(({ tool, first }) => loaded.get(tool) === first))
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
