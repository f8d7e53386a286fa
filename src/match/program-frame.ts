import type { LoadAnswer, LoadProblem } from './load-problem.ts'
import type { ProblemLevel } from './problem-level.ts'

/** A column of the frame. */
export interface FrameColumn {
  readonly upper: number
  readonly entries: readonly (readonly [row: number, value: number])[]
  /** What one of it adds to a level. */
  readonly costAt: (at: ProblemLevel) => number
  /** The printer of copies in time; null of other columns. */
  readonly inTime: number | null
}

/**
 * What every program for a problem begins with: for each group how many copies are served on each printer,
 * how many of them in time, and how many are not served.
 *
 * Rows: for each task, printer and node, that what is begun there is what is served there, or for a node
 * between, what ended there; for each group, that its copies are served or not; for each printer and due
 * time, that what is to be in time by then fits before it (in time means done in the order of due times,
 * late ones after them: Lawler and Moore 1969, from memory).
 */
export class ProgramFrame {
  readonly #problem: LoadProblem
  readonly columns: readonly FrameColumn[]
  readonly rowLower: readonly number[]
  readonly rowUpper: readonly number[]
  /** Row of the first node of each group's task on a printer. */
  readonly #cover = new Map<string, number>()
  readonly #served: readonly { readonly group: number; readonly printer: number }[]
  /** Places in `#served` of those that may be late. */
  readonly #inTime: readonly number[]

  constructor(problem: LoadProblem) {
    this.#problem = problem
    const { groups, free_h } = problem
    const rowLower: number[] = []
    const rowUpper: number[] = []
    const row = (lower: number, upper: number): number => {
      rowUpper.push(upper)
      return rowLower.push(lower) - 1
    }
    this.#served = groups.flatMap(({ printers }, group) =>
      printers.map((printer) => ({ group, printer })),
    )
    this.#inTime = this.#served.flatMap(({ group }, place) =>
      groups[group]!.due_h < Infinity ? [place] : [],
    )
    for (const { group, printer } of this.#served) {
      for (const [task, nodes] of groups[group]!.nodes.entries()) {
        this.#cover.set(`${group} ${task} ${printer}`, rowLower.length)
        for (let node = 0; node < nodes - 1; node++) row(0, 0)
      }
    }
    const groupRows = groups.map(({ count }) => row(count, count))
    const times = free_h.flatMap((free, printer) => {
      const dues = this.#inTime
        .map((place) => this.#served[place]!)
        .filter((each) => each.printer === printer)
        .map(({ group }) => groups[group]!.due_h)
      return [...new Set(dues)].map((due_h) => ({
        printer,
        due_h,
        row: row(-Infinity, due_h - free + instant),
      }))
    })
    const inTimeRows = new Map(this.#inTime.map((place) => [place, row(-Infinity, 0)]))
    const served = this.#served.map(({ group, printer }, place): FrameColumn => {
      const { count, nodes } = groups[group]!
      const entries = nodes.map((_, task): [number, number] => [
        this.#cover.get(`${group} ${task} ${printer}`)!,
        -1,
      ])
      entries.push([groupRows[group]!, 1])
      const inTime = inTimeRows.get(place)
      if (inTime !== undefined) entries.push([inTime, -1])
      const costAt = (at: ProblemLevel): number =>
        Number(at.level === 'late' && inTime !== undefined)
      return { upper: count, entries, costAt, inTime: null }
    })
    const inTime = this.#inTime.map((place): FrameColumn => {
      const { group, printer } = this.#served[place]!
      const { count, due_h, duration_h } = groups[group]!
      const entries: [number, number][] = [[inTimeRows.get(place)!, 1]]
      for (const time of times) {
        if (time.printer === printer && due_h <= time.due_h && duration_h > 0) {
          entries.push([time.row, duration_h])
        }
      }
      // What takes no time is late only when its printer is not free by then.
      const isPossible = free_h[printer]! + duration_h <= due_h + instant
      return {
        upper: isPossible ? count : 0,
        entries,
        costAt: (at) => (at.level === 'late' ? -1 : 0),
        inTime: printer,
      }
    })
    const unserved = groups.map(
      ({ count, importance }, group): FrameColumn => ({
        upper: count,
        entries: [[groupRows[group]!, 1]],
        costAt: (at) => Number(at.level === 'unserved' && at.importance === importance),
        inTime: null,
      }),
    )
    this.columns = [...served, ...inTime, ...unserved]
    this.rowLower = rowLower
    this.rowUpper = rowUpper
  }

  /** Rows of an item: it begins at one node, and ends at another unless that is the end of the print. */
  entriesOf(item: number): readonly (readonly [row: number, value: number])[] {
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

  /** Values of the columns for what is served. */
  valuesOf(served: LoadAnswer['served']): Float64Array {
    const values = new Float64Array(this.columns.length)
    for (const [place, { group, printer }] of this.#served.entries()) {
      const here = served[group]!.find((each) => each.printer === printer)
      values[place] = here?.copies ?? 0
      const inTime = this.#inTime.indexOf(place)
      if (inTime >= 0) values[this.#served.length + inTime] = here?.inTime ?? 0
    }
    const groupAt = this.#served.length + this.#inTime.length
    for (const [group, { count }] of this.#problem.groups.entries()) {
      const done = served[group]!.reduce((sum, { copies }) => sum + copies, 0)
      values[groupAt + group] = count - done
    }
    return values
  }

  /** What values of the columns, the first of a program, mean. */
  servedOf(values: Float64Array): LoadAnswer['served'] {
    return this.#problem.groups.map((_, group) =>
      this.#served.flatMap((each, place) => {
        if (each.group !== group) return []
        const copies = Math.round(values[place]!)
        const inTime = this.#inTime.indexOf(place)
        const known = inTime < 0 ? copies : Math.round(values[this.#served.length + inTime]!)
        return copies > 0 ? [{ printer: each.printer, copies, inTime: known }] : []
      }),
    )
  }
}

/** Less than this is no time, h. */
const instant = 1e-9
