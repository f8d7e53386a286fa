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

/**
 * All prints from the same reels as if they were one: what each reel is asked, by the longest reading of each
 * file. What a start takes is not in it: `judgeReels` takes that for each print.
 *
 * @param all - what each print draws; every reel serves one tool of each
 * @param named - tools whose reels were told by their number; the other reels serve the other tools in order
 * @returns by the tools of the first; null where there are fewer than two, or not as many tools in each
 */
export const drawnTogether = (
  all: readonly (readonly ToolDrawn[])[],
  named: ReadonlySet<number>,
): readonly ToolDrawn[] | null => {
  const inOrder = all.map((tools) => [
    ...tools.filter(({ tool }) => named.has(tool)),
    ...tools.filter(({ tool }) => !named.has(tool)),
  ])
  const [first, ...others] = inOrder
  if (first === undefined || others.length === 0) return null
  if (others.some((tools) => tools.length !== first.length)) return null
  return first
    .map(({ tool }, place) => {
      const peak_mm = inOrder.reduce((sum, tools) => sum + longest(tools[place]!), 0)
      return { tool, draw: [{ weight: 1, peak_mm }] }
    })
    .toSorted((a, b) => a.tool - b.tool)
}

const longest = ({ draw }: ToolDrawn): number => Math.max(...draw.map(({ peak_mm }) => peak_mm))
