import { type LinearColumn, modelOf } from './linear-columns.ts'
import type { LinearModel } from './linear-solver.ts'
import type { Clash, ItemLoad, LoadAnswer, LoadKind, LoadProblem } from './load-problem.ts'
import { instant } from './print-job.ts'
import { type FixedLevel, type ProblemLevel, slackOfFixed } from './problem-level.ts'
import { ProgramFrame } from './program-frame.ts'

/** A number of the program while it is written. */
interface Column extends LinearColumn {
  readonly entries: [row: number, value: number][]
}

/** One reel of a kind: where its columns are. */
interface ProgramReel {
  readonly kind: number
  /** For each of the kind's items the column that says how often it does it. */
  readonly doing: readonly number[]
}

/**
 * The program that picks what each reel does, item by item, for the levels of late copies and of swaps: small,
 * and with a bound near to what whole loads come to, where a program of loads needs thousands of them.
 *
 * Of each reel it says whether it is used and left useful, as a stub or with nothing, for each item whether
 * it does that, and for each place whether it is put on there. What loads leave is exact, for it is what the
 * reel holds less what each item takes. Whether a load is safe is not in it but by weight: loads that are not
 * are to be forbidden as they turn up. Nor is more of its time in it than that a reel has time for what it is to
 * do in time by each due time.
 */
export class ReelProgram {
  readonly #frame: ProgramFrame
  readonly #problem: LoadProblem
  readonly #level: ProblemLevel
  readonly #fixed: readonly FixedLevel[]
  readonly #columns: Column[] = []
  readonly #rowLower: number[]
  readonly #rowUpper: number[]
  readonly #levelRow: number
  readonly #mostRow: number
  /** Of each printer, from here on, a column of the swaps it has more than the loads alone cost. */
  readonly #moreAt: number
  readonly #reels: readonly ProgramReel[]

  /**
   * @param level - that is to be least
   * @param fixed - the levels before, that are to stay as they are
   */
  constructor(problem: LoadProblem, level: ProblemLevel, fixed: readonly FixedLevel[]) {
    this.#problem = problem
    this.#level = level
    this.#fixed = fixed
    this.#frame = new ProgramFrame(problem)
    this.#rowLower = [...this.#frame.rowLower]
    this.#rowUpper = [...this.#frame.rowUpper]
    this.#levelRow = this.#rowLower.length
    for (const { most } of fixed) this.#row(-Infinity, most + slackOfFixed)
    this.#mostRow = this.#row(-Infinity, Infinity)
    for (const { upper, entries, costAt } of this.#frame.columns) {
      this.#column(upper, entries, costAt)
    }
    this.#moreAt = this.#columns.length
    for (const _ of problem.free_h) {
      this.#column(Infinity, [], (at) => Number(at.level === 'swaps'), false)
    }
    const opened = fixed.find((each) => each.level.level === 'opened')?.most ?? Infinity
    this.#reels = problem.kinds.flatMap((kind, place) => {
      const count = kind.openedCost > 0 ? Math.min(kind.count, opened) : kind.count
      let before: readonly number[] = []
      return Array.from({ length: count }, () => {
        const { reel, used } = this.#addReel(kind, place)
        // Of reels that are alike the first are used.
        if (before.length > 0) {
          const row = this.#row(-Infinity, 0)
          for (const column of used) this.#columns[column]!.entries.push([row, 1])
          for (const column of before) this.#columns[column]!.entries.push([row, -1])
        }
        before = used
        return reel
      })
    })
  }

  /** The program for answers with so much at the level at most. */
  model(most: number): LinearModel {
    const rowUpper = Float64Array.from(this.#rowUpper)
    rowUpper[this.#mostRow] = most
    return modelOf(this.#columns, Float64Array.from(this.#rowLower), rowUpper)
  }

  /** What columns mean; loads may be there that are not safe. */
  answerOf(columns: Float64Array): LoadAnswer {
    const used = new Map<string, { kind: number; load: ItemLoad; times: number }>()
    for (const { kind, doing } of this.#reels) {
      const load = doing
        .flatMap((column, place) =>
          Array.from(
            { length: Math.round(columns[column]!) },
            () => this.#problem.kinds[kind]!.items[place]!,
          ),
        )
        .toSorted((a, b) => a - b)
      if (load.length === 0) continue
      const key = `${kind}:${load.join(',')}`
      used.set(key, { kind, load, times: (used.get(key)?.times ?? 0) + 1 })
    }
    return { loads: [...used.values()], served: this.#frame.servedOf(columns) }
  }

  /**
   * Forbids a load, and every one that has all of it. False where that can not be said, an item being one
   * that may be done more than once.
   */
  forbid(kind: number, load: ItemLoad): boolean {
    const { items, groups, kinds } = this.#problem
    if (load.some((item) => groups[items[item]!.group]!.count > 1)) return false
    for (const { doing } of this.#reels.filter((reel) => reel.kind === kind)) {
      const row = this.#row(-Infinity, load.length - 1)
      for (const item of load) {
        this.#columns[doing[kinds[kind]!.items.indexOf(item)]!]!.entries.push([row, 1])
      }
    }
    return true
  }

  /**
   * States that what columns have some groups' copies do, those in time there being in time, does not come
   * together without so many more swaps on their printers than the loads alone cost (Hooker and Ottosson 2003,
   * from memory). False where that can not be said, an item being done less often than it may be. A change that is
   * not there might bring just what has to be put on: where it is, nothing is said.
   */
  addTogether(columns: Float64Array, groups: readonly number[], more: number): boolean {
    const { items, kinds } = this.#problem
    const all = this.#reels.flatMap(({ kind, doing }) =>
      doing.map((column, place) => ({ column, item: items[kinds[kind]!.items[place]!]! })),
    )
    const together = all.filter(
      ({ column, item }) => groups.includes(item.group) && Math.round(columns[column]!) > 0,
    )
    const isWhole = together.every(({ column }) => this.#columns[column]!.upper === 1)
    if (!isWhole) return false
    const printers = new Set(together.map(({ item }) => item.printer))
    const row = this.#row(-Infinity, more * (together.length - 1))
    for (const { column } of together) this.#columns[column]!.entries.push([row, more])
    for (const each of all) {
      const mayBring = each.item.from > 0 && printers.has(each.item.printer)
      if (mayBring && !together.includes(each))
        this.#columns[each.column]!.entries.push([row, -more])
    }
    // What is said of one printer several times is not to be counted as often.
    for (const printer of printers) this.#columns[this.#moreAt + printer]!.entries.push([row, -1])
    return true
  }

  /** States that something can not be all together: of each load a column that is 1 where a reel does all of it. */
  addClash({ loads, copies }: Clash): void {
    const all = this.#row(-Infinity, loads.length + copies.length - 1)
    for (const { group, printer } of copies) {
      this.#columns[this.#frame.columnInTime(group, printer)]!.entries.push([all, 1])
    }
    for (const { items, kinds } of loads) {
      const isDone = this.#column(1, [[all, 1]], () => 0, false)
      for (const { kind, doing } of this.#reels) {
        const places = items.map((item) => this.#problem.kinds[kind]!.items.indexOf(item))
        if (!kinds[kind]! || places.includes(-1)) continue
        const row = this.#row(-Infinity, items.length - 1)
        this.#columns[isDone]!.entries.push([row, -1])
        for (const place of places) this.#columns[doing[place]!]!.entries.push([row, 1])
      }
    }
  }

  #row(lower: number, upper: number): number {
    this.#rowUpper.push(upper)
    return this.#rowLower.push(lower) - 1
  }

  #column(
    upper: number,
    entries: readonly (readonly [row: number, value: number])[],
    costAt: (at: ProblemLevel) => number,
    whole = true,
  ): number {
    const cost = costAt(this.#level)
    const all: [number, number][] = entries.map(([row, value]) => [row, value])
    for (const [i, { level }] of this.#fixed.entries()) {
      const value = costAt(level)
      if (value !== 0) all.push([this.#levelRow + i, value])
    }
    if (cost !== 0) all.push([this.#mostRow, cost])
    return this.#columns.push({ cost, upper, whole, entries: all }) - 1
  }

  #addReel(
    kind: LoadKind,
    place: number,
  ): { readonly reel: ProgramReel; readonly used: readonly number[] } {
    const { groups, items, stub } = this.#problem
    const add = (columns: readonly number[], row: number, value: number): void => {
      if (value !== 0) for (const i of columns) this.#columns[i]!.entries.push([row, value])
    }
    const takes = kind.takes.map((each) => Math.max(0, each))
    const most = mostTaken(this.#problem, kind)
    /** What a load may take that leaves the reel useful. */
    const useful = kind.left - stub.below
    const leastStub = Math.max(stub.above, kind.left - most)
    const usedCost =
      (stubs: number) =>
      ({ level }: ProblemLevel): number =>
        level === 'opened' ? kind.openedCost : level === 'stubs' ? stubs - kind.stubAlone : 0
    const asUseful = this.#column(1, [], usedCost(0))
    const asStub = this.#column(1, [], usedCost(leastStub))
    const asNothing = this.#column(kind.left - most <= stub.above ? 1 : 0, [], usedCost(0))
    const moreStub = this.#column(Infinity, [], ({ level }) => (level === 'stubs' ? 1 : 0), false)
    const used = [asUseful, asStub, asNothing]
    const doing = kind.items.map((item) => {
      const [changes, different] = kind.itemCost(item)
      return this.#column(
        groups[items[item]!.group]!.count,
        this.#frame.entriesOf(item),
        ({ level }) => (level === 'changes' ? changes : level === 'different' ? different : 0),
      )
    })

    // In time means done in the order of due times here, too.
    for (const due_h of new Set(
      kind.items.flatMap((item) => (items[item]!.inTime ? groups[items[item]!.group]!.due_h : [])),
    )) {
      const time = this.#row(-Infinity, due_h - kind.free_h + instant)
      for (const [i, column] of doing.entries()) {
        const { inTime, group } = items[kind.items[i]!]!
        if (inTime && groups[group]!.due_h <= due_h) add([column], time, groups[group]!.duration_h)
      }
    }
    add(used, this.#row(-Infinity, 1), 1)
    const touched = this.#row(-Infinity, 0)
    add(used, touched, 1)
    add(doing, touched, -1)
    const weight = this.#row(-Infinity, 0)
    const taken = this.#row(-Infinity, 0)
    const emptied = this.#row(0, Infinity)
    const isStub = this.#row(0, Infinity)
    for (const [i, column] of doing.entries()) {
      if (kind.capacity < Infinity) add([column], weight, kind.weights[i]!)
      add([column], taken, kind.takes[i]!)
      add([column], emptied, takes[i]!)
      add([column], isStub, takes[i]!)
    }
    if (kind.capacity < Infinity) add(used, weight, -kind.capacity)
    add([asUseful], taken, -useful)
    add([asStub, asNothing], taken, -most)
    add([asNothing], emptied, -(kind.left - stub.above))
    add([asStub], isStub, -(kind.left - leastStub))
    add([moreStub], isStub, 1)
    // One reel never feeds two tools of one copy, nor two parts of a print.
    for (const own of Map.groupBy(
      kind.items.keys(),
      (i) => items[kind.items[i]!]!.group,
    ).values()) {
      const { group } = items[kind.items[own[0]!]!]!
      const { count, nodes } = groups[group]!
      if (nodes.length === 1 && nodes[0] === 2) continue
      const row = this.#row(-Infinity, count)
      add(
        own.map((i) => doing[i]!),
        row,
        1,
      )
    }
    for (const [at, own] of Map.groupBy(kind.items.keys(), (i) =>
      putOnAt(this.#problem, kind, i),
    )) {
      const begin = own.filter((i) => kind.places[i]! >= 0)
      const brought = own.filter((i) => items[kind.items[i]!]!.from > 0).map((i) => doing[i]!)
      const putOn = at < 0 ? [] : [this.#column(1, [], ({ level }) => (level === 'swaps' ? 1 : 0))]
      for (const i of own) {
        const { count } = groups[items[kind.items[i]!]!.group]!
        const row = this.#row(-Infinity, 0)
        add([doing[i]!], row, 1)
        // What begins there needs it to be put on, or brought by a change; all else that it is used.
        add(begin.includes(i) ? [...putOn, ...brought] : used, row, -count)
      }
      if (begin.length === 0 || putOn.length === 0) continue
      add(putOn, this.#row(-Infinity, 0), 1)
      add(used, this.#rowLower.length - 1, -1)
      const here = this.#row(-Infinity, 0)
      for (const i of begin) add([doing[i]!], here, takes[i]!)
      add([...putOn, ...brought], here, -Math.max(0, useful))
      add([asStub, asNothing], here, -Math.max(0, most - Math.max(0, useful)))
    }
    return { reel: { kind: place, doing }, used }
  }
}

/** Where the reel is put on for the print that an item is of, or of which it is a part; −1 for nowhere. */
const putOnAt = ({ items }: LoadProblem, kind: LoadKind, i: number): number => {
  const { group, task, printer } = items[kind.items[i]!]!
  const begin = kind.items.findIndex((item) => {
    const each = items[item]!
    return each.from === 0 && each.group === group && each.task === task && each.printer === printer
  })
  return begin < 0 ? -1 : kind.places[begin]!
}

/** No safe load of a kind takes more on average, g. */
const mostTaken = ({ groups, items }: LoadProblem, kind: LoadKind): number => {
  let all = 0
  let perWeight = 0
  for (const [i, item] of kind.items.entries()) {
    const takes = Math.max(0, kind.takes[i]!)
    all += takes * groups[items[item]!.group]!.count
    if (takes > 0) perWeight = Math.max(perWeight, takes / Math.max(0, kind.weights[i]!))
  }
  return perWeight < Infinity && kind.capacity < Infinity
    ? Math.min(all, perWeight * kind.capacity)
    : all
}
