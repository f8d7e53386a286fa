import type { CheckJson, RankedReelJson, ToolCheckJson } from '../../contract/index.ts'

/** Of a reel in the ranking the chance to be told: null where what is told of it does not agree. */
export const chanceRanked = ({
  chance,
  contradicting,
}: Pick<RankedReelJson, 'chance' | 'contradicting'>): number | null =>
  contradicting.length > 0 ? null : chance

/** What was observed of the reel of a tool and does not agree with the rest. */
export const contradictingIn = ({ used }: Pick<ToolCheckJson, 'used'>): readonly string[] =>
  used.filter(({ surprising }) => surprising).map(({ what }) => what)

/** The same of the reel of a tool. */
export const chanceOfTool = (tool: Pick<ToolCheckJson, 'chance' | 'used'>): number | null =>
  contradictingIn(tool).length > 0 ? null : tool.chance

/**
 * The same of a whole print.
 *
 * @param inDoubt - true of a file that may not say all that the print draws
 */
export const chanceOfPrint = (
  { verdict, chance, tools }: Pick<CheckJson, 'verdict' | 'chance' | 'tools'>,
  inDoubt: boolean,
): number | null =>
  verdict === 'close' && (inDoubt || tools.some((tool) => chanceOfTool(tool) === null))
    ? null
    : chance

/**
 * A reel of the ranking as the answer has it, where something is supposed of it: the ranking knows
 * nothing of that.
 */
export const asAnswered = (one: RankedReelJson, tool: ToolCheckJson | undefined): RankedReelJson =>
  tool === undefined
    ? one
    : {
        ...one,
        verdict: tool.verdict,
        chance: tool.chance,
        net_g: tool.net_g,
        left_over_g: tool.left_over_g,
        margin_g: tool.margin_g,
        contradicting: contradictingIn(tool),
        // It stands beside the answer.
        next: null,
      }
