import type { CheckJson, SupposedJson, ToolCheckJson } from '../../contract/index.ts'
import type { ReelOfTool } from '../api/api.ts'

/** What may be supposed of a reel. */
export type SupposedKind = keyof SupposedJson

/** One of them as it is typed; null where it is not supposed any more. */
export type SupposedPart = {
  readonly [K in SupposedKind]?: NonNullable<SupposedJson[K]> | null
}

/** The reels taken, with the one of a tool and that part of what is supposed of it; the rest of it stays. */
export const withPart = (
  taken: readonly ReelOfTool[],
  { tool, reel }: Pick<ReelOfTool, 'tool' | 'reel'>,
  part: SupposedPart,
): readonly ReelOfTool[] => {
  const before = taken.find((one) => one.tool === tool)
  // What was supposed of another reel says nothing of this one.
  const all = { ...(before?.reel === reel && before), ...part }
  const supposed = Object.fromEntries(Object.entries(all).filter(([, told]) => told !== null))
  return [...taken.filter((one) => one.tool !== tool), { ...supposed, tool, reel }]
}

/** By the id of a reel what is answered of it, where something is supposed of it. */
export const supposedIn = ({
  check,
  reels,
}: {
  readonly check: Pick<CheckJson, 'tools'>
  readonly reels: readonly ReelOfTool[]
}): ReadonlyMap<string, ToolCheckJson> =>
  new Map(
    reels.flatMap(({ tool, reel, ...parts }): readonly (readonly [string, ToolCheckJson])[] => {
      const answer = check.tools.find((one) => one.tool === tool)
      return answer === undefined || Object.keys(parts).length === 0 ? [] : [[reel, answer]]
    }),
  )
