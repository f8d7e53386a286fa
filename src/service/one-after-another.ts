import { type PlannedRun, runInTurn } from '../estimate/index.ts'
import type { PrintTime } from '../print/index.ts'
import type { PrintTimes } from './clock-to-json.ts'
import type { ToolDrawn } from './tools-drawn.ts'

/** What is asked of each print of a row. */
export interface PrintInTurn<T> {
  /** How long it takes; undefined where nobody knows, as of a file that may not be whole. */
  readonly timeOf: (one: T) => PrintTime | undefined
  /** The same print with other times, where it has any. */
  readonly timed: (one: T, change: (times: PrintTimes) => PrintTimes) => T
}

/**
 * Prints of one printer: each begins when the one before is done and a person has taken it off. After one
 * of which nobody knows how long it takes none is told when it begins.
 */
export const oneAfterAnother = <T>(
  all: readonly T[],
  { timeOf, timed }: PrintInTurn<T>,
): readonly T[] => {
  const runs: PlannedRun[] = []
  let isKnown = true
  return all.map((one) => {
    const before = runs.length === 0 ? undefined : runInTurn(runs)
    const told = timed(one, isKnown ? (times) => ({ ...times, ...(before && { before }) }) : apart)
    const time = timeOf(one)
    if (time === undefined) isKnown = false
    else {
      runs.push({ planned_s: time.total_s, waits: [...time.waits, { kind: 'person', times: 1 }] })
    }
    return told
  })
}

/** How long it takes, and no time of day. */
const apart = ({ start: _start, ...times }: PrintTimes): PrintTimes => times

/** One of several prints, from the same reels as the others. */
export interface DrawnInTurn {
  readonly tools: readonly ToolDrawn[]
  /** What its printer takes besides what the file asks, mm. */
  readonly start_mm: number
}

/**
 * All prints from the same reels as if they were one: what each tool is asked, by the longest reading of
 * each file, and the start allowance of each. The spread of a print's own feed is then taken as that of one
 * long print, which is wider.
 *
 * @returns null where there are fewer than two, or they do not all use the same tools
 */
export const drawnTogether = (all: readonly DrawnInTurn[]): readonly ToolDrawn[] | null => {
  const [first, ...others] = all
  if (first === undefined || others.length === 0) return null
  if (others.some((each) => numbersOf(each) !== numbersOf(first))) return null
  // The one of the first is in what judges them.
  const starts_mm = others.reduce((sum, { start_mm }) => sum + start_mm, 0)
  return first.tools.map(({ tool }, place) => {
    const longest = all.map(({ tools }) =>
      Math.max(...tools[place]!.draw.map(({ peak_mm }) => peak_mm)),
    )
    return {
      tool,
      draw: [{ weight: 1, peak_mm: longest.reduce((sum, each) => sum + each, starts_mm) }],
    }
  })
}

const numbersOf = ({ tools }: DrawnInTurn): string => tools.map(({ tool }) => tool).join()
