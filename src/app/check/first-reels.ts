import type { ToolRankingJson } from '../../contract/index.ts'
import type { ReelOfTool } from '../api/api.ts'
import { ProblemFault } from '../api/problem-fault.ts'

/** Refusals of a check that end with a reel: nothing can be printed from it any more. */
const endsOfReel: ReadonlySet<string> = new Set([
  'reel_empty',
  'reel_retired',
  'reel_left_out',
  'reel_unknown',
])

/** Whether no answer came because a reel is gone: what was answered of it before stands no longer. */
export const isReelGone = (failure: unknown): boolean =>
  failure instanceof ProblemFault && endsOfReel.has(failure.problem.code)

/** The reels taken, less those that are off the ranking: it is asked for once one of them is gone. */
export const withoutGone = (
  tools: readonly ToolRankingJson[],
  taken: readonly ReelOfTool[],
): readonly ReelOfTool[] =>
  taken.filter(({ reel: id }) =>
    tools.some(({ reels }) => reels.some(({ reel }) => reel.id === id)),
  )

/**
 * One reel for each tool: the one taken, else the best that no other tool has; one that nothing runs on
 * rather than another of the same verdict.
 *
 * @param busy - ids of reels that a print is running on
 * @returns tools without any reel left are missing
 */
export function firstReels(
  tools: readonly ToolRankingJson[],
  taken: readonly ReelOfTool[],
  busy: ReadonlySet<string>,
): readonly ReelOfTool[] {
  const used = new Set(
    taken.filter((one) => tools.some(({ tool }) => tool === one.tool)).map(({ reel }) => reel),
  )
  return tools.flatMap(({ tool, reels }) => {
    const chosen = taken.find((one) => one.tool === tool)
    if (chosen !== undefined) return [chosen]
    const left = reels.filter(({ reel }) => !used.has(reel.id))
    const free = left.find(({ reel }) => !busy.has(reel.id))
    const best = free?.verdict === left[0]?.verdict ? (free ?? left[0]) : left[0]
    if (best === undefined) return []
    used.add(best.reel.id)
    return [{ tool, reel: best.reel.id }]
  })
}
