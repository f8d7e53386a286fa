import type { ToolRankingJson } from '../../contract/index.ts'
import type { ReelOfTool } from '../api/api.ts'

/**
 * One reel for each tool: the one taken, else the best that no other tool has.
 *
 * @returns tools without any reel left are missing
 */
export function firstReels(
  tools: readonly ToolRankingJson[],
  taken: readonly ReelOfTool[],
): readonly ReelOfTool[] {
  const used = new Set(
    taken.filter((one) => tools.some(({ tool }) => tool === one.tool)).map(({ reel }) => reel),
  )
  return tools.flatMap(({ tool, reels }) => {
    const chosen = taken.find((one) => one.tool === tool)
    if (chosen !== undefined) return [chosen]
    const best = reels.find(({ reel }) => !used.has(reel.id))
    if (best === undefined) return []
    used.add(best.reel.id)
    return [{ tool, reel: best.reel.id }]
  })
}
