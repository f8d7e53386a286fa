import type { LoadAnswer, LoadProblem } from './load-problem.ts'
import { instant } from './print-job.ts'
import type { ProblemLevel } from './problem-level.ts'

/** A column of the frame. */
export interface FrameColumn {
  readonly upper: number
  readonly entries: readonly (readonly [row: number, value: number])[]
  /** What one of it adds to a level. */
  readonly costAt: (at: ProblemLevel) => number
}

/**
 * What every program for a problem begins with: for each group how many copies are served on each printer,
 * in time or not, and how many are not served.
 *
 * Rows: for each task, printer and node, that what is begun there is what is served there, or for a node
 * between, what ended there, in time and late copies apart; for each group, that its copies are served or not;
 * for each printer and due time, that what is to be in time by then fits before it (in time means done in the
 * order of due times, late ones after them: Lawler and Moore 1969, from memory).
 */
export class ProgramFrame {
  readonly #problem: LoadProblem
  readonly columns: readonly FrameColumn[]
  readonly rowLower: readonly number[]
  readonly rowUpper: readonly number[]
  /** Row of the first node of each group's task on a printer. */
  readonly #cover = new Map<string, number>()
  readonly #served: readonly {
    readonly group: number
    readonly printer: number
    readonly inTime: boolean
  }[]

  constructor(problem: LoadProblem) {
    this.#problem = problem
    const { groups, items, free_h } = problem
    const rowLower: number[] = []
    const rowUpper: number[] = []
    const row = (lower: number, upper: number): number => {
      rowUpper.push(upper)
      return rowLower.push(lower) - 1
    }
    const canBeInTime = new Set(
      items.flatMap(({ group, printer, inTime }) => (inTime ? [`${group} ${printer}`] : [])),
    )
    this.#served = groups.flatMap(({ printers }, group) =>
      printers.flatMap((printer) => [
        { group, printer, inTime: false },
        ...(canBeInTime.has(`${group} ${printer}`) ? [{ group, printer, inTime: true }] : []),
      ]),
    )
    for (const { group, printer, inTime } of this.#served) {
      for (const [task, nodes] of groups[group]!.nodes.entries()) {
        this.#cover.set(keyOfCover(group, task, printer, inTime), rowLower.length)
        for (let node = 0; node < nodes - 1; node++) row(0, 0)
      }
    }
    const groupRows = groups.map(({ count }) => row(count, count))
    const times = free_h.flatMap((free, printer) => {
      const dues = this.#served
        .filter((each) => each.inTime && each.printer === printer)
        .map(({ group }) => groups[group]!.due_h)
      return [...new Set(dues)].map((due_h) => ({
        printer,
        due_h,
        // One that is at work for longer has no time, and not less than none.
        row: row(-Infinity, Math.max(0, due_h - free) + instant),
      }))
    })
    const served = this.#served.map(({ group, printer, inTime }): FrameColumn => {
      const { count, nodes, due_h, duration_h } = groups[group]!
      const entries = nodes.map((_, task): [number, number] => [
        this.#cover.get(keyOfCover(group, task, printer, inTime))!,
        -1,
      ])
      entries.push([groupRows[group]!, 1])
      for (const time of inTime && duration_h > 0 ? times : []) {
        if (time.printer === printer && due_h <= time.due_h) entries.push([time.row, duration_h])
      }
      const late = Number(!inTime && due_h < Infinity)
      const isTooLate = inTime && free_h[printer]! + duration_h > due_h + instant
      return {
        upper: isTooLate ? 0 : count,
        entries,
        costAt: (at) => (at.level === 'late' ? late : 0),
      }
    })
    const unserved = groups.map(
      ({ count, importance }, group): FrameColumn => ({
        upper: count,
        entries: [[groupRows[group]!, 1]],
        costAt: (at) => Number(at.level === 'unserved' && at.importance === importance),
      }),
    )
    this.columns = [...served, ...unserved]
    this.rowLower = rowLower
    this.rowUpper = rowUpper
  }

  /** Rows of an item: it begins at one node, and ends at another unless that is the end of the print. */
  entriesOf(item: number): readonly (readonly [row: number, value: number])[] {
    const { group, task, printer, from, to, inTime } = this.#problem.items[item]!
    const row = this.#cover.get(keyOfCover(group, task, printer, inTime))!
    const last = this.#problem.groups[group]!.nodes[task]! - 1
    return to === last
      ? [[row + from, 1]]
      : [
          [row + from, 1],
          [row + to, -1],
        ]
  }

  /** The column of copies of a group in time on a printer. */
  columnInTime(group: number, printer: number): number {
    return this.#served.findIndex(
      (each) => each.group === group && each.printer === printer && each.inTime,
    )
  }

  /** Values of the columns for what is served. */
  valuesOf(served: LoadAnswer['served']): Float64Array {
    const values = new Float64Array(this.columns.length)
    for (const [place, { group, printer, inTime }] of this.#served.entries()) {
      const here = served[group]!.find((each) => each.printer === printer && each.inTime === inTime)
      values[place] = here?.copies ?? 0
    }
    for (const [group, { count }] of this.#problem.groups.entries()) {
      const done = served[group]!.reduce((sum, { copies }) => sum + copies, 0)
      values[this.#served.length + group] = count - done
    }
    return values
  }

  /** What values of the columns, the first of a program, mean. */
  servedOf(values: Float64Array): LoadAnswer['served'] {
    return this.#problem.groups.map((_, group) =>
      this.#served.flatMap(({ group: own, printer, inTime }, place) => {
        const copies = own === group ? Math.round(values[place]!) : 0
        return copies > 0 ? [{ printer, inTime, copies }] : []
      }),
    )
  }
}

const keyOfCover = (group: number, task: number, printer: number, inTime: boolean): string =>
  `${group} ${task} ${printer} ${inTime}`
