import type { LinearModel } from './linear-solver.ts'
import {
  type ItemLoad,
  type LoadAnswer,
  type LoadLevel,
  type LoadProblem,
  loadLevels,
} from './load-problem.ts'

/** A load that the program may use. */
export interface LoadColumn {
  readonly kind: number
  readonly load: ItemLoad
  /** One entry for each of `loadLevels`. */
  readonly cost: Float64Array
}

/** A level of a problem. */
export type ProblemLevel =
  | { readonly level: 'unserved'; readonly importance: number }
  | { readonly level: 'late' | LoadLevel }

/** A level that later ones must not make worse. */
export interface FixedLevel {
  readonly level: ProblemLevel
  /** Not counting what reels left alone add. */
  readonly most: number
}

/** What one more of a row is worth. */
export interface MasterPrices {
  /** For each item: what having it in a load is worth. */
  readonly items: readonly number[]
  /** For each kind: what using one of it costs. */
  readonly kinds: readonly number[]
  /** For each of `loadLevels`: its price, ≥ 0, from the levels fixed. */
  readonly levels: readonly number[]
}

/** The levels of a problem, in order. */
export const problemLevels = ({
  importances,
  hasEarlier,
}: LoadProblem): readonly ProblemLevel[] => [
  ...importances.map((importance): ProblemLevel => ({ level: 'unserved', importance })),
  { level: 'late' },
  ...loadLevels
    .filter((level) => hasEarlier || level !== 'different')
    .map((level): ProblemLevel => ({ level })),
]

/** How far a level that is fixed may be off, for rounding. */
const slack = 1e-6

/**
 * The program that picks loads: a column for each load and for each group how many copies are served on
 * each printer, how many of them in time, and how many are not served.
 *
 * Rows: for each task, printer and node, that what is begun there is what is served there, or for a node
 * between, what ended there; for each group, that its copies are served or not; for each kind, that no
 * more reels are used than there are; for each printer and due time, that what is to be in time by then
 * fits before it (in time means done in the order of due times, late ones after them: Lawler and Moore
 * 1969, from memory); for each level fixed, that it stays.
 */
export class LoadMaster {
  readonly #problem: LoadProblem
  /** Their columns come last, so that a basis stays one when there are more. */
  readonly loads: LoadColumn[] = []
  readonly #entries: (readonly (readonly [row: number, value: number])[])[] = []
  readonly #known = new Set<string>()
  /** What comes with loads and copies in time, by their keys, that all are chosen: more swaps. */
  readonly #together: { readonly keys: ReadonlySet<string>; readonly more: number }[] = []
  readonly #served: readonly { readonly group: number; readonly printer: number }[]
  /** Places in `#served` of those that may be late. */
  readonly #inTime: readonly number[]
  /** Row of the first node of each group's task on a printer. */
  readonly #cover = new Map<string, number>()
  readonly #groupRow: number
  readonly #kindRow: number
  readonly #timeRow: number
  readonly #times: readonly { readonly printer: number; readonly due_h: number }[]
  readonly #inTimeRow: number
  readonly #rows: number

  constructor(problem: LoadProblem) {
    this.#problem = problem
    const { groups, kinds, free_h } = problem
    this.#served = groups.flatMap(({ printers }, group) =>
      printers.map((printer) => ({ group, printer })),
    )
    this.#inTime = this.#served.flatMap(({ group }, place) =>
      groups[group]!.due_h < Infinity ? [place] : [],
    )
    let row = 0
    for (const { group, printer } of this.#served) {
      for (const [task, nodes] of groups[group]!.nodes.entries()) {
        this.#cover.set(`${group} ${task} ${printer}`, row)
        row += nodes - 1
      }
    }
    this.#groupRow = row
    this.#kindRow = this.#groupRow + groups.length
    this.#timeRow = this.#kindRow + kinds.length
    this.#times = free_h.flatMap((_, printer) => {
      const dues = this.#inTime
        .map((place) => this.#served[place]!)
        .filter((each) => each.printer === printer)
        .map(({ group }) => groups[group]!.due_h)
      return [...new Set(dues)].map((due_h) => ({ printer, due_h }))
    })
    this.#inTimeRow = this.#timeRow + this.#times.length
    this.#rows = this.#inTimeRow + this.#inTime.length
  }

  /** Adds a load unless it is there. */
  add(column: LoadColumn): boolean {
    const key = keyOfLoad(column)
    if (this.#known.has(key)) return false
    this.#known.add(key)
    this.loads.push(column)
    this.#entries.push(this.#loadEntries(column.kind, column.load))
    return true
  }

  /**
   * States that the loads of an answer that have to do with a printer, and its copies in time there, do
   * not come together without so many swaps more than the loads alone cost: a column of its own that is 1
   * where they do (Hooker and Ottosson 2003, from memory). False where one of them may be there twice.
   */
  addTogether({ loads, served }: LoadAnswer, printer: number, more: number): boolean {
    const { groups, items, kinds } = this.#problem
    const here = loads.filter(({ load }) => load.some((item) => items[item]!.printer === printer))
    const inTime = [...served.entries()].filter(([, list]) =>
      list.some((each) => each.printer === printer && each.inTime > 0),
    )
    const isOnce =
      here.every(({ kind }) => kinds[kind]!.count === 1) &&
      inTime.every(([group]) => groups[group]!.count === 1)
    if (!isOnce) return false
    const keys = new Set([
      ...here.map(keyOfLoad),
      ...inTime.flatMap(([group]) =>
        groups[group]!.due_h < Infinity ? [keyOfInTime({ group, printer })] : [],
      ),
    ])
    this.#together.push({ keys, more })
    return true
  }

  /** The program for one level, the earlier ones fixed. */
  model(level: ProblemLevel, fixed: readonly FixedLevel[]): LinearModel {
    const { groups, kinds, free_h } = this.#problem
    const columns: {
      readonly cost: number
      readonly upper: number
      readonly entries: readonly (readonly [row: number, value: number])[]
    }[] = []
    const levelRow = this.#rows
    const togetherRow = levelRow + fixed.length
    const add = (
      upper: number,
      entries: (readonly [number, number])[],
      costAt: (at: ProblemLevel) => number,
      key?: string,
    ): void => {
      for (const [i, { keys }] of this.#together.entries()) {
        if (key !== undefined && keys.has(key)) entries.push([togetherRow + i, 1])
      }
      for (const [i, each] of fixed.entries()) {
        const value = costAt(each.level)
        if (value !== 0) entries.push([levelRow + i, value])
      }
      columns.push({ cost: costAt(level), upper, entries })
    }
    for (const [place, { group, printer }] of this.#served.entries()) {
      const { count, nodes } = groups[group]!
      const entries = nodes.map((_, task): [number, number] => [
        this.#cover.get(`${group} ${task} ${printer}`)!,
        -1,
      ])
      entries.push([this.#groupRow + group, 1])
      const inTime = this.#inTime.indexOf(place)
      if (inTime >= 0) entries.push([this.#inTimeRow + inTime, -1])
      add(count, entries, (at) => Number(at.level === 'late' && inTime >= 0))
    }
    for (const [i, place] of this.#inTime.entries()) {
      const { group, printer } = this.#served[place]!
      const { count, due_h, duration_h } = groups[group]!
      const entries: [number, number][] = [[this.#inTimeRow + i, 1]]
      for (const [j, time] of this.#times.entries()) {
        if (time.printer === printer && due_h <= time.due_h && duration_h > 0) {
          entries.push([this.#timeRow + j, duration_h])
        }
      }
      // What takes no time is late only when its printer is not free by then.
      const isPossible = free_h[printer]! + duration_h <= due_h + instant
      const key = keyOfInTime(this.#served[place]!)
      add(isPossible ? count : 0, entries, (at) => (at.level === 'late' ? -1 : 0), key)
    }
    for (const [group, { count, importance }] of groups.entries()) {
      add(count, [[this.#groupRow + group, 1]], (at) =>
        Number(at.level === 'unserved' && at.importance === importance),
      )
    }

    for (const [i, column] of this.loads.entries()) {
      const costAt = ({ level: at }: ProblemLevel): number =>
        at === 'unserved' || at === 'late' ? 0 : column.cost[loadLevels.indexOf(at)]!
      add(kinds[column.kind]!.count, [...this.#entries[i]!], costAt, keyOfLoad(column))
    }
    for (const [i, { more }] of this.#together.entries()) {
      add(1, [[togetherRow + i, -1]], (at) => (at.level === 'swaps' ? more : 0))
    }

    const rows = togetherRow + this.#together.length
    const rowLower = new Float64Array(rows)
    const rowUpper = new Float64Array(rows)
    for (const [group, { count }] of groups.entries()) {
      rowLower[this.#groupRow + group] = count
      rowUpper[this.#groupRow + group] = count
    }
    for (const [kind, { count }] of kinds.entries()) rowUpper[this.#kindRow + kind] = count
    rowLower.fill(-Infinity, this.#kindRow, rows)
    for (const [i, { printer, due_h }] of this.#times.entries()) {
      rowUpper[this.#timeRow + i] = due_h - free_h[printer]! + instant
    }
    for (const [i, { most }] of fixed.entries()) rowUpper[levelRow + i] = most + slack
    for (const [i, { keys }] of this.#together.entries()) rowUpper[togetherRow + i] = keys.size - 1
    return assembled(columns, rowLower, rowUpper)
  }

  /** What rows are worth, from the answer of a relaxed program with these levels fixed. */
  prices(rowDual: Float64Array, fixed: readonly FixedLevel[]): MasterPrices {
    const { items, kinds } = this.#problem
    const levels = loadLevels.map(() => 0)
    for (const [i, { level }] of fixed.entries()) {
      if (level.level === 'unserved' || level.level === 'late') continue
      levels[loadLevels.indexOf(level.level)]! += Math.max(0, -rowDual[this.#rows + i]!)
    }
    return {
      items: items.map((_, item) =>
        this.#itemEntries(item).reduce((sum, [row, value]) => sum + rowDual[row]! * value, 0),
      ),
      kinds: kinds.map((_, kind) => Math.max(0, -rowDual[this.#kindRow + kind]!)),
      levels,
    }
  }

  /** Columns for an answer that uses only loads that are here. */
  columnsOf({ loads, served }: LoadAnswer): Float64Array {
    const { groups } = this.#problem
    const at = new Map(this.loads.map((column, i) => [keyOfLoad(column), i]))
    const inTimeAt = this.#served.length
    const groupAt = inTimeAt + this.#inTime.length
    const loadAt = groupAt + groups.length
    const columns = new Float64Array(loadAt + this.loads.length)
    for (const used of loads) columns[loadAt + at.get(keyOfLoad(used))!]! += used.times
    for (const [place, { group, printer }] of this.#served.entries()) {
      const here = served[group]!.find((each) => each.printer === printer)
      columns[place] = here?.copies ?? 0
      const inTime = this.#inTime.indexOf(place)
      if (inTime >= 0) columns[inTimeAt + inTime] = here?.inTime ?? 0
    }
    for (const [group, { count }] of groups.entries()) {
      const done = served[group]!.reduce((sum, { copies }) => sum + copies, 0)
      columns[groupAt + group] = count - done
    }
    return columns
  }

  /** What columns mean. */
  answerOf(columns: Float64Array): LoadAnswer {
    const inTimeAt = this.#served.length
    const loadAt = inTimeAt + this.#inTime.length + this.#problem.groups.length
    const loads = this.loads.flatMap(({ kind, load }, i) => {
      const times = Math.round(columns[loadAt + i]!)
      return times > 0 ? [{ kind, load, times }] : []
    })
    const served = this.#problem.groups.map((_, group) =>
      this.#served.flatMap((each, place) => {
        if (each.group !== group) return []
        const copies = Math.round(columns[place]!)
        const inTime = this.#inTime.indexOf(place)
        const known = inTime < 0 ? copies : Math.round(columns[inTimeAt + inTime]!)
        return copies > 0 ? [{ printer: each.printer, copies, inTime: known }] : []
      }),
    )
    return { loads, served }
  }

  /** The value of an answer at a level, not counting what reels left alone add. */
  valueOf({ loads, served }: LoadAnswer, at: ProblemLevel): number {
    const { groups, kinds } = this.#problem
    if (at.level === 'unserved') {
      return groups.reduce((sum, { count, importance }, group) => {
        if (importance !== at.importance) return sum
        return sum + count - served[group]!.reduce((done, { copies }) => done + copies, 0)
      }, 0)
    }
    if (at.level === 'late') {
      return served.flat().reduce((sum, { copies, inTime }) => sum + copies - inTime, 0)
    }
    const place = loadLevels.indexOf(at.level)
    return loads.reduce(
      (sum, { kind, load, times }) => sum + times * kinds[kind]!.cost(load)[place]!,
      0,
    )
  }

  #loadEntries(kind: number, load: ItemLoad): [number, number][] {
    const entries = new Map<number, number>([[this.#kindRow + kind, 1]])
    for (const item of load) {
      for (const [row, value] of this.#itemEntries(item)) {
        entries.set(row, (entries.get(row) ?? 0) + value)
      }
    }
    return [...entries].filter(([, value]) => value !== 0)
  }

  /** Begins at one node, and ends at another unless that is the end of the print. */
  #itemEntries(item: number): readonly (readonly [row: number, value: number])[] {
    const { group, task, printer, from, to } = this.#problem.items[item]!
    const row = this.#cover.get(`${group} ${task} ${printer}`)!
    const last = this.#problem.groups[group]!.nodes[task]! - 1
    return to === last
      ? [[row + from, 1]]
      : [
          [row + from, 1],
          [row + to, -1],
        ]
  }
}

const keyOfLoad = ({ kind, load }: { readonly kind: number; readonly load: ItemLoad }): string =>
  `${kind}:${load.join(',')}`

const keyOfInTime = (at: { readonly group: number; readonly printer: number }): string =>
  `${at.group} in time on ${at.printer}`

/** Less than this is no time, h. */
const instant = 1e-9

const assembled = (
  columns: readonly {
    readonly cost: number
    readonly upper: number
    readonly entries: readonly (readonly [row: number, value: number])[]
  }[],
  rowLower: Float64Array,
  rowUpper: Float64Array,
): LinearModel => {
  const size = columns.reduce((sum, { entries }) => sum + entries.length, 0)
  const starts = new Int32Array(columns.length + 1)
  const rows = new Int32Array(size)
  const values = new Float64Array(size)
  let at = 0
  for (const [i, { entries }] of columns.entries()) {
    starts[i] = at
    for (const [row, value] of entries) {
      rows[at] = row
      values[at++] = value
    }
  }
  starts[columns.length] = at
  return {
    cost: Float64Array.from(columns, ({ cost }) => cost),
    lower: new Float64Array(columns.length),
    upper: Float64Array.from(columns, ({ upper }) => upper),
    whole: new Uint8Array(columns.length).fill(1),
    rowLower,
    rowUpper,
    starts,
    rows,
    values,
  }
}
