import { alikeReels } from './alike-reels.ts'
import { lastNode, nodesOf, problemPieces } from './change-cuts.ts'
import type { Choice, Choices, Serving } from './choice.ts'
import { clashOf } from './clash-of.ts'
import { type CompiledCopy, type CompiledSlate, isWhole, type Piece } from './compiled-slate.ts'
import { lastEnd } from './last-end.ts'
import type { LoadJudge } from './load-judge.ts'
import type {
  ItemLoad,
  LoadAnswer,
  LoadGroup,
  LoadItem,
  LoadKind,
  LoadProblem,
  SettledAnswer,
} from './load-problem.ts'
import { moreSwapsIn, moreSwapsWhy } from './more-swaps.ts'
import { mostInTime } from './most-in-time.ts'
import { isDifferent, type LoadCost, loadCost, nothingLeft, placePutOn } from './plan-value.ts'
import { instant, jobOf, jobsOf } from './print-job.ts'
import { type ProblemLevel, valueAt } from './problem-level.ts'
import { timetableOf } from './timetable.ts'

/** A part of a slate as a problem of loads, and the way back. */
export interface SlateProblem {
  readonly problem: LoadProblem
  /** The answer that some choices are. */
  readonly answerOf: (choices: Choices) => LoadAnswer
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
 * alike a kind. Where copies can be late each stands by itself, and what a reel is asked to do says of each
 * whether it is to be in time.
 *
 * @param withParts - whether prints that may be changed are looked at in parts, too, between the cuts of their
 *   tasks; where what a cut is is left open, so is what is safe, and no plan is worse than the best answer
 */
export const slateProblem = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  { copies, reels }: SlatePart,
  withParts: boolean,
): SlateProblem => {
  // Of few there is no need to count, and what is told apart can be ordered to the last swap.
  const isSmall = copies.length <= fewCopies && reels.length <= fewReels
  const end_h = lastEnd(slate, copies)
  const dueOf = (copy: number): number => {
    const { due_h } = slate.copies[copy]!
    return due_h !== null && end_h > due_h + instant ? due_h : Infinity
  }
  const isTimed = copies.some((copy) => dueOf(copy) < Infinity)
  const groups =
    isSmall || isTimed
      ? copies.map((copy) => [copy])
      : [...Map.groupBy(copies, (copy) => keyOfCopy(slate, copy, withParts)).values()]
  const items: LoadItem[] = []
  /** The piece that stands for an item. */
  const pieces: Piece[] = []
  /** Where cuts leave it open what the piece is, the most that it may be. */
  const widest: Piece[] = []
  for (const [group, [first]] of groups.entries()) {
    const { tasks, printers } = slate.copies[first!]!
    for (const [task, own] of tasks.entries()) {
      for (const printer of printers) {
        for (const { from, to, least, most } of problemPieces(slate, own, printer, withParts)) {
          for (const inTime of dueOf(first!) < Infinity ? [false, true] : [false]) {
            items.push({ group, task, printer, from, to, inTime })
            pieces.push(least)
            widest.push(most)
          }
        }
      }
    }
  }
  const isInTime = loadsInTime(slate, items, pieces)
  const itemsOfReel = reels.map((reel) =>
    pieces.flatMap((piece, item) =>
      piece.reels.includes(reel) && isInTime(reel, [item]) ? [item] : [],
    ),
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
      const { importance, printers, duration_h, tasks } = slate.copies[places[0]!]!
      return {
        count: places.length,
        importance,
        printers,
        due_h: dueOf(places[0]!),
        duration_h: duration_h ?? 0,
        nodes: tasks.map((task) => lastNode(task, withParts) + 1),
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
        isSafe: (load) => isInTime(reel, load) && judge.isSafe(loadOf(load)),
        cost: (load) => {
          const cost = loadCost(slate, judge, reel, loadOf(load))
          return Float64Array.of(
            cost.changes,
            cost.opened,
            cost.different,
            leastStub(slate, cost, judge.meanLeft(load.map((item) => widest[item]!))) - alone.stubs,
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
        free_h: slate.free_h[slate.printers.length + reel]!,
        takes: own.map((item) => alone.left - judge.meanLeft([pieces[item]!])),
      }
    }),
    free_h: slate.printers.map(({ free_h = 0 }) => free_h),
    importances: [...new Set(copies.map((copy) => slate.copies[copy]!.importance))].toSorted(
      (a, b) => b - a,
    ),
    hasEarlier: slate.earlier.size > 0,
    stub: { above: nothingLeft, below: slate.useful_g },
    moreSwaps: (answer) =>
      moreSwapsIn(slate, choicesOf(slate, groups, kinds, items, pieces, answer)),
    whyMoreSwaps: (answer) =>
      moreSwapsWhy(slate, choicesOf(slate, groups, kinds, items, pieces, answer)).map(
        ({ copies: few, more }) => ({
          groups: [...groups.keys()].filter((group) =>
            groups[group]!.some((copy) => few.includes(copy)),
          ),
          more,
        }),
      ),
    ...(isTimed && { settled: (answer) => settled(answer) }),
  }
  const answer = (choices: Choices): LoadAnswer =>
    answerOf(slate, problem, groups, kinds, choices, withParts)
  const settled = (had: LoadAnswer): SettledAnswer => {
    const choices = choicesOf(slate, groups, kinds, items, pieces, had)
    const has = answer(choices)
    const late: ProblemLevel = { level: 'late' }
    if (valueAt(problem, has, late) <= valueAt(problem, had, late)) {
      return { answer: has, clash: null }
    }
    const inTime = new Set(
      groups.flatMap(([copy], group) =>
        had.served[group]!.some((each) => each.inTime) ? [copy!] : [],
      ),
    )
    const jobs = jobsOf(slate, choices).filter(({ copy }) => inTime.has(copy))
    return {
      answer: has,
      clash: clashOf(slate, problem, { kinds, groups, withParts }, choices, jobs),
    }
  }
  return {
    problem,
    answerOf: answer,
    choicesOf: (of) => choicesOf(slate, groups, kinds, items, pieces, of),
  }
}

/** The least that a load leaves as a stub, g, if as much may be left as it costs, or less. */
const leastStub = (slate: CompiledSlate, { stubs, left }: LoadCost, leastLeft: number): number => {
  if (leastLeft >= left) return stubs
  return stubs > 0 && leastLeft > nothingLeft ? leastLeft : 0
}

/** Whether a reel can do those of a load that are to be in time, were all else as it should be. */
const loadsInTime = (
  slate: CompiledSlate,
  items: readonly LoadItem[],
  pieces: readonly Piece[],
): ((reel: number, load: ItemLoad) => boolean) => {
  const known = new Map<string, boolean>()
  return (reel, load) => {
    const own = load.filter((item) => items[item]!.inTime)
    if (own.length === 0) return true
    const key = `${reel} ${own.toSorted((a, b) => a - b).join(' ')}`
    const before = known.get(key)
    if (before !== undefined) return before
    const jobs = own.map((item) => jobOf(slate, pieces[item]!.copy, pieces[item]!.printer, [reel]))
    const { jobs: done, isMost } = mostInTime(jobs, slate.free_h, { asked: jobs.length })
    const isPossible = done.length === jobs.length || !isMost
    known.set(key, isPossible)
    return isPossible
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
  { groups: counted, items }: LoadProblem,
  groups: readonly (readonly number[])[],
  kinds: readonly (readonly number[])[],
  choices: Choices,
  withParts: boolean,
): LoadAnswer => {
  const groupOf = new Map(groups.flatMap((places, group) => places.map((place) => [place, group])))
  const { late } = timetableOf(
    slate,
    choices.map((choice, copy) => (groupOf.has(copy) ? choice : null)),
  )
  const isInTime = (copy: number): boolean =>
    counted[groupOf.get(copy)!]!.due_h < Infinity && !late.has(copy)
  const itemAt = new Map(items.map((item, place) => [keyOfItem(item), place]))
  const itemOf = (servings: readonly Serving[], serving: Serving): number => {
    const { piece } = serving
    const { copy, printer } = piece
    const task = slate.copies[copy]!.tasks.findIndex(({ place }) => place === piece.task)
    const [from, to] = nodesOf(slate, servings, serving, withParts)
    const group = groupOf.get(copy)!
    return itemAt.get(keyOfItem({ group, task, printer, from, to, inTime: isInTime(copy) }))!
  }
  const loads = new Map<number, number[]>()
  for (const { servings } of choices.filter((choice) => choice !== null)) {
    for (const serving of servings) {
      const { reel } = serving
      loads.set(reel, [...(loads.get(reel) ?? []), itemOf(servings, serving)])
    }
  }
  const used = new Map<string, { kind: number; load: ItemLoad; times: number }>()
  for (const [reel, list] of loads) {
    const kind = kinds.findIndex((places) => places.includes(reel))
    const load = list.toSorted((a, b) => a - b)
    const key = `${kind}:${load.join(',')}`
    const known = used.get(key) ?? { kind, load, times: 0 }
    used.set(key, { ...known, times: known.times + 1 })
  }
  const served = groups.map((places) => {
    const done = places.filter((place) => choices[place])
    const alike = Map.groupBy(done, (place) => `${choices[place]!.printer} ${isInTime(place)}`)
    return [...alike.values()].map((list) => ({
      printer: choices[list[0]!]!.printer,
      inTime: isInTime(list[0]!),
      copies: list.length,
    }))
  })
  return { loads: [...used.values()], served }
}

const keyOfItem = ({ group, task, printer, from, to, inTime }: LoadItem): string =>
  `${group} ${task} ${printer} ${from} ${to} ${inTime}`

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
        const piece = sameOf(slate, slate.copies[copy]!, task, pieces[item]!, reel)
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
  piece: Piece,
  reel: number,
): Piece => {
  const { place, nodes } = tasks[task]!
  const { printer, from, to } = piece
  return slate.pieceOf(place, printer, from, isWhole(slate, piece) ? nodes.length - 1 : to, reel)
}
