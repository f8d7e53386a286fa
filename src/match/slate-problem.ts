import { alikeReels } from './alike-reels.ts'
import { type Choice, type Choices, loadsOf, type Serving } from './choice.ts'
import type { CompiledCopy, CompiledSlate, Piece } from './compiled-slate.ts'
import type { LoadJudge } from './load-judge.ts'
import type {
  ItemLoad,
  LoadAnswer,
  LoadGroup,
  LoadItem,
  LoadKind,
  LoadProblem,
} from './load-problem.ts'
import { isDifferent, loadCost, nothingLeft, placePutOn, placesPutOn } from './plan-value.ts'
import { type OrderedCopies, orderPrinters } from './printer-order.ts'

/** A part of a slate as a problem of loads, and the way back. */
export interface SlateProblem {
  readonly problem: LoadProblem
  /** The answer that some choices are. */
  readonly answerOf: (choices: Choices, orders: readonly OrderedCopies[]) => LoadAnswer
  /** Choices that an answer stands for, for the copies of this part; null for the rest. */
  readonly choicesOf: (answer: LoadAnswer) => Choices
}

/** Some copies and reels of a slate that have nothing to do with the rest. */
export interface SlatePart {
  /** Places. */
  readonly copies: readonly number[]
  readonly reels: readonly number[]
}

/**
 * States a part of a slate as a problem of loads. Copies that are alike become a group, reels that are
 * alike a kind.
 *
 * @param withParts - whether prints that may be changed are looked at in parts, too
 */
export const slateProblem = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  { copies, reels }: SlatePart,
  withParts: boolean,
): SlateProblem => {
  // Of few there is no need to count, and what is told apart can be ordered to the last swap.
  const isSmall = copies.length <= fewCopies && reels.length <= fewReels
  const groups = isSmall
    ? copies.map((copy) => [copy])
    : [...Map.groupBy(copies, (copy) => keyOfCopy(slate, copy, withParts)).values()]
  const items: LoadItem[] = []
  /** The piece that stands for an item. */
  const pieces: Piece[] = []
  for (const [group, [first]] of groups.entries()) {
    for (const [task, { place }] of slate.copies[first!]!.tasks.entries()) {
      for (const piece of slate.piecesOf(place)) {
        if (piece.place >= slate.wholes && !withParts) continue
        // The nodes in between are not there where nothing is looked at in parts.
        const to = withParts ? piece.to : 1
        items.push({ group, task, printer: piece.printer, from: piece.from, to })
        pieces.push(piece)
      }
    }
  }
  const itemsOfReel = reels.map((reel) =>
    pieces.flatMap((piece, item) => (piece.reels.includes(reel) ? [item] : [])),
  )
  const alike = alikeReels(slate)
  const kinds = isSmall
    ? reels.map((reel) => [reel])
    : [
        ...Map.groupBy(
          reels,
          (reel) => `${alike[reel]} ${itemsOfReel[reels.indexOf(reel)]!.join(' ')}`,
        ).values(),
      ]
  const loadOf = (load: ItemLoad): readonly Piece[] => load.map((item) => pieces[item]!)
  const problem: LoadProblem = {
    groups: groups.map((places): LoadGroup => {
      const { importance, printers, due_h, duration_h, tasks } = slate.copies[places[0]!]!
      return {
        count: places.length,
        importance,
        printers,
        due_h: due_h ?? Infinity,
        duration_h: duration_h ?? 0,
        nodes: tasks.map(({ nodes }) => (withParts ? nodes.length : 2)),
      }
    }),
    items,
    kinds: kinds.map((places): LoadKind => {
      const reel = places[0]!
      const judge = judges[reel]!
      const { sealed } = slate.reels[reel]!
      const own = itemsOfReel[reels.indexOf(reel)]!
      const alone = loadCost(slate, judge, reel, [])
      return {
        count: places.length,
        items: own,
        weights: own.map((item) => judge.weight(pieces[item]!)),
        capacity: judge.capacity,
        isSafe: (load) => judge.isSafe(loadOf(load)),
        cost: (load) => {
          const cost = loadCost(slate, judge, reel, loadOf(load))
          return Float64Array.of(
            cost.changes,
            cost.opened,
            cost.different,
            cost.stubs - alone.stubs,
            cost.swaps,
          )
        },
        itemCost: (item) => [
          Number(pieces[item]!.from > 0),
          Number(isDifferent(slate, reel, pieces[item]!)),
        ],
        places: own.map((item) => placePutOn(slate, reel, pieces[item]!)),
        openedCost: sealed ? 1 : 0,
        stubAlone: alone.stubs,
        left: alone.left,
        takes: own.map((item) => alone.left - judge.meanLeft([pieces[item]!])),
      }
    }),
    free_h: slate.printers.map(({ free_h = 0 }) => free_h),
    importances: [...new Set(copies.map((copy) => slate.copies[copy]!.importance))].toSorted(
      (a, b) => b - a,
    ),
    hasEarlier: slate.earlier.size > 0,
    stub: { above: nothingLeft, below: slate.useful_g },
    moreSwaps: (answer) => {
      const choices = choicesOf(slate, groups, kinds, items, pieces, answer)
      const fewest = slate.printers.map(() => 0)
      for (const [reel, load] of loadsOf(choices, slate.reels.length).entries()) {
        for (const place of placesPutOn(slate, reel, load)) fewest[place % fewest.length]!++
      }
      return orderPrinters(slate, choices).flatMap(({ printer, swaps, isLeast }) =>
        swaps > fewest[printer]! ? [{ printer, more: swaps - fewest[printer]!, isLeast }] : [],
      )
    },
  }
  return {
    problem,
    answerOf: (choices, orders) =>
      answerOf(slate, groups, kinds, items, choices, orders, withParts),
    choicesOf: (answer) => choicesOf(slate, groups, kinds, items, pieces, answer),
  }
}

const fewCopies = 8
const fewReels = 8

/** The same for copies that nothing tells apart: those of one tool that is never changed. */
const keyOfCopy = (slate: CompiledSlate, place: number, withParts: boolean): string => {
  const { tasks, printers, importance, due_h, duration_h } = slate.copies[place]!
  const [task] = tasks
  if (tasks.length > 1 || slate.earlier.has(task!.place)) return `${place}`
  if (withParts && task!.mostChanges > 0) return `${place}`
  const { lengths, confidence, reels } = task!.whole.get(printers[0]!)!
  return JSON.stringify([
    importance,
    due_h,
    duration_h,
    printers,
    task!.tool,
    lengths,
    confidence,
    reels,
  ])
}

const answerOf = (
  slate: CompiledSlate,
  groups: readonly (readonly number[])[],
  kinds: readonly (readonly number[])[],
  items: readonly LoadItem[],
  choices: Choices,
  orders: readonly OrderedCopies[],
  withParts: boolean,
): LoadAnswer => {
  const groupOf = new Map(groups.flatMap((places, group) => places.map((place) => [place, group])))
  const itemAt = new Map(items.map((item, place) => [keyOfItem(item), place]))
  const itemOf = (piece: Piece): number => {
    const { copy, printer, from } = piece
    const task = slate.copies[copy]!.tasks.findIndex(({ place }) => place === piece.task)
    const to = withParts ? piece.to : 1
    return itemAt.get(keyOfItem({ group: groupOf.get(copy)!, task, printer, from, to }))!
  }
  const loads = new Map<number, number[]>()
  for (const { piece, reel } of choices.flatMap((choice) => choice?.servings ?? [])) {
    loads.set(reel, [...(loads.get(reel) ?? []), itemOf(piece)])
  }
  const used = new Map<string, { kind: number; load: ItemLoad; times: number }>()
  for (const [reel, list] of loads) {
    const kind = kinds.findIndex((places) => places.includes(reel))
    const load = list.toSorted((a, b) => a - b)
    const key = `${kind}:${load.join(',')}`
    const known = used.get(key) ?? { kind, load, times: 0 }
    used.set(key, { ...known, times: known.times + 1 })
  }
  const late = lateOf(slate, orders)
  const served = groups.map((places) => {
    const done = places.filter((place) => choices[place])
    return [...Map.groupBy(done, (place) => choices[place]!.printer)].map(([printer, list]) => ({
      printer,
      copies: list.length,
      inTime: list.filter((place) => !late.has(place)).length,
    }))
  })
  return { loads: [...used.values()], served }
}

const keyOfItem = ({ group, task, printer, from, to }: LoadItem): string =>
  `${group} ${task} ${printer} ${from} ${to}`

/** Copies that end after their due time. */
const lateOf = (slate: CompiledSlate, orders: readonly OrderedCopies[]): ReadonlySet<number> => {
  const late = new Set<number>()
  for (const { printer, copies } of orders) {
    let now = slate.printers[printer]!.free_h ?? 0
    for (const copy of copies) {
      const { duration_h, due_h } = slate.copies[copy]!
      now += duration_h ?? 0
      if (now > (due_h ?? Infinity) + 1e-9) late.add(copy)
    }
  }
  return late
}

const choicesOf = (
  slate: CompiledSlate,
  groups: readonly (readonly number[])[],
  kinds: readonly (readonly number[])[],
  items: readonly LoadItem[],
  pieces: readonly Piece[],
  { loads }: LoadAnswer,
): Choices => {
  const freeReels = kinds.map((places) => [...places])
  const freeCopies = groups.map((places) => [...places])
  const servings = new Map<number, Serving[]>()
  for (const { kind, load, times } of loads) {
    for (let i = 0; i < times; i++) {
      const reel = freeReels[kind]!.shift()!
      for (const item of load) {
        const { group, task } = items[item]!
        const places = groups[group]!
        // Of copies that are alike, the next; a copy by itself has all its tasks and parts.
        const copy = places.length > 1 ? freeCopies[group]!.shift()! : places[0]!
        const piece = sameOf(slate, slate.copies[copy]!, task, pieces[item]!)
        servings.set(copy, [...(servings.get(copy) ?? []), { piece, reel }])
      }
    }
  }
  return slate.copies.map(({ place }): Choice | null => {
    const own = servings.get(place)
    if (!own) return null
    const sorted = own.toSorted(
      (a, b) => a.piece.task - b.piece.task || a.piece.from - b.piece.from,
    )
    return { printer: sorted[0]!.piece.printer, servings: sorted }
  })
}

/** The piece of another copy that is like this one. */
const sameOf = (
  slate: CompiledSlate,
  { tasks }: CompiledCopy,
  task: number,
  { printer, from, to }: Piece,
): Piece =>
  slate
    .piecesOf(tasks[task]!.place)
    .find((piece) => piece.printer === printer && piece.from === from && piece.to === to)!
