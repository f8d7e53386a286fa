import { modelOf } from './linear-columns.ts'
import type { LinearModel } from './linear-solver.ts'
import {
  type Clash,
  type ItemLoad,
  type LoadAnswer,
  type LoadProblem,
  loadLevels,
} from './load-problem.ts'
import { type FixedLevel, type ProblemLevel, slackOfFixed } from './problem-level.ts'
import { ProgramFrame } from './program-frame.ts'

/** A load that the program may use. */
export interface LoadColumn {
  readonly kind: number
  readonly load: ItemLoad
  /** One entry for each of `loadLevels`. */
  readonly cost: Float64Array
}

/** What one more of a row is worth. */
export interface MasterPrices {
  /** For each item: what having it in a load is worth. */
  readonly items: readonly number[]
  /** For each kind: what using one of it costs. */
  readonly kinds: readonly number[]
  /** For each of `loadLevels`: its price, ≥ 0, from the levels fixed. */
  readonly levels: readonly number[]
  /** For each clash stated so far: what one more of what clashes costs, ≥ 0. */
  readonly clashes: readonly number[]
}

/**
 * The program that picks loads: the frame, and a column for each load.
 *
 * Rows beside the frame's: for each kind, that no more reels are used than there are; for each clash stated,
 * that not all of it is there; for each level fixed, that it stays.
 */
export class LoadMaster {
  readonly #problem: LoadProblem
  readonly #frame: ProgramFrame
  /** Their columns come last, so that a basis stays one when there are more. */
  readonly loads: LoadColumn[] = []
  readonly #entries: (readonly (readonly [row: number, value: number])[])[] = []
  readonly #known = new Set<string>()
  readonly #kindRow: number
  readonly #clashes: Clash[] = []

  constructor(problem: LoadProblem) {
    this.#problem = problem
    this.#frame = new ProgramFrame(problem)
    this.#kindRow = this.#frame.rowLower.length
  }

  get #clashRow(): number {
    return this.#kindRow + this.#problem.kinds.length
  }

  get #levelRow(): number {
    return this.#clashRow + this.#clashes.length
  }

  /** States that something can not be all together. */
  addClash(clash: Clash): void {
    this.#clashes.push(clash)
  }

  /** What a load costs at the prices of the clashes it has a part in. */
  costInClashes({ clashes }: MasterPrices): ((kind: number, load: ItemLoad) => number) | undefined {
    const priced = this.#clashes.flatMap((clash, i) => {
      const price = clashes[i] ?? 0
      return price > 0 ? [{ clash, price }] : []
    })
    if (priced.length === 0) return undefined
    return (kind, load) =>
      priced.reduce((sum, { clash, price }) => sum + price * partIn(clash, kind, load), 0)
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

  /** The program for one level, the earlier ones fixed. */
  model(level: ProblemLevel, fixed: readonly FixedLevel[]): LinearModel {
    const { kinds } = this.#problem
    const column = (
      upper: number,
      entries: readonly (readonly [row: number, value: number])[],
      costAt: (at: ProblemLevel) => number,
    ) => {
      const inLevels = fixed.flatMap((each, i): readonly [number, number][] => {
        const value = costAt(each.level)
        return value === 0 ? [] : [[this.#levelRow + i, value]]
      })
      return { cost: costAt(level), upper, entries: [...entries, ...inLevels] }
    }
    const clashing = this.#clashes.map(({ copies }) =>
      copies.map(({ group, printer }) => this.#frame.columnInTime(group, printer)),
    )
    const columns = [
      ...this.#frame.columns.map(({ upper, entries, costAt }, i) => {
        const inClashes = clashing.flatMap((of, k): readonly [number, number][] =>
          of.includes(i) ? [[this.#clashRow + k, 1]] : [],
        )
        return column(upper, [...entries, ...inClashes], costAt)
      }),
      ...this.loads.map(({ kind, load, cost }, i) => {
        const inClashes = this.#clashes.flatMap((clash, k): readonly [number, number][] => {
          const part = partIn(clash, kind, load)
          return part > 0 ? [[this.#clashRow + k, part]] : []
        })
        return column(kinds[kind]!.count, [...this.#entries[i]!, ...inClashes], ({ level: at }) =>
          at === 'unserved' || at === 'late' ? 0 : cost[loadLevels.indexOf(at)]!,
        )
      }),
    ]
    const none = [...kinds, ...this.#clashes, ...fixed].map(() => -Infinity)
    return modelOf(
      columns,
      Float64Array.from([...this.#frame.rowLower, ...none]),
      Float64Array.from([
        ...this.#frame.rowUpper,
        ...kinds.map(({ count }) => count),
        ...this.#clashes.map(({ loads, copies }) => loads.length + copies.length - 1),
        ...fixed.map(({ most }) => most + slackOfFixed),
      ]),
    )
  }

  /** What rows are worth, from the answer of a relaxed program with these levels fixed. */
  prices(rowDual: Float64Array, fixed: readonly FixedLevel[]): MasterPrices {
    const { items, kinds } = this.#problem
    const levels = loadLevels.map(() => 0)
    for (const [i, { level }] of fixed.entries()) {
      if (level.level === 'unserved' || level.level === 'late') continue
      levels[loadLevels.indexOf(level.level)]! += Math.max(0, -rowDual[this.#levelRow + i]!)
    }
    return {
      items: items.map((_, item) =>
        this.#frame.entriesOf(item).reduce((sum, [row, value]) => sum + rowDual[row]! * value, 0),
      ),
      kinds: kinds.map((_, kind) => Math.max(0, -rowDual[this.#kindRow + kind]!)),
      levels,
      clashes: this.#clashes.map((_, i) => Math.max(0, -rowDual[this.#clashRow + i]!)),
    }
  }

  /** Columns for an answer that uses only loads that are here. */
  columnsOf({ loads, served }: LoadAnswer): Float64Array {
    const at = new Map(this.loads.map((column, i) => [keyOfLoad(column), i]))
    const frame = this.#frame.valuesOf(served)
    const columns = new Float64Array(frame.length + this.loads.length)
    columns.set(frame)
    for (const used of loads) columns[frame.length + at.get(keyOfLoad(used))!]! += used.times
    return columns
  }

  /** What columns mean. */
  answerOf(columns: Float64Array): LoadAnswer {
    const loadAt = this.#frame.columns.length
    const loads = this.loads.flatMap(({ kind, load }, i) => {
      const times = Math.round(columns[loadAt + i]!)
      return times > 0 ? [{ kind, load, times }] : []
    })
    return { loads, served: this.#frame.servedOf(columns) }
  }

  #loadEntries(kind: number, load: ItemLoad): [number, number][] {
    const entries = new Map<number, number>([[this.#kindRow + kind, 1]])
    for (const item of load) {
      for (const [row, value] of this.#frame.entriesOf(item)) {
        entries.set(row, (entries.get(row) ?? 0) + value)
      }
    }
    return [...entries].filter(([, value]) => value !== 0)
  }
}

/** How many of a clash's loads a load has in it. */
const partIn = ({ loads }: Clash, kind: number, load: ItemLoad): number =>
  loads.filter(({ items, kinds }) => kinds[kind]! && items.every((item) => load.includes(item)))
    .length

const keyOfLoad = ({ kind, load }: { readonly kind: number; readonly load: ItemLoad }): string =>
  `${kind}:${load.join(',')}`
