import { DomainError } from '../units/index.ts'
import { compileSlate } from './compiled-slate.ts'
import { loadJudge } from './load-judge.ts'
import type { LevelResult, MatchLevel, MatchPlan } from './match-plan.ts'
import type { Matcher } from './match-slate.ts'
import { partOfSlate } from './part-of-slate.ts'
import type { MatchSlate } from './slate.ts'

/** What changes at one level; more is worse. */
export interface LevelDifference {
  readonly level: MatchLevel
  /** For `unserved`: the importance that is meant. */
  readonly importance?: number
  readonly by: number
}

/** Why a reel was chosen and not another. */
export interface ChoiceExplained {
  readonly copy: string
  readonly tool: number
  /** The reels that the plan takes. */
  readonly reels: readonly string[]
  /** The reel that it is held against; null where no other would do even by itself. */
  readonly other: string | null
  /**
   * What the best plan with the other reel has other than the best plan without that wish, level by
   * level, in their order; the first is what decided. Empty where the other reel is as good.
   */
  readonly differences: readonly LevelDifference[]
}

/** A difference of a level below this is none, g or a whole thing. */
const none = 0.05

/**
 * Why the plan takes this reel for a tool of a copy and not the obvious other: the fullest that would do
 * by itself, for that is the one a person would take. The slate is solved again with and without the other
 * reel locked, as far as it has to do with the copy.
 *
 * @param match - `matchSlate` with a solver, here or in a thread
 * @param other - the reel to hold it against, in place of the obvious one
 * @throws DomainError `unknown_id` for a copy, tool or reel that is not there, `not_served`
 */
export const explainChoice = async (
  match: Matcher,
  slate: MatchSlate,
  plan: MatchPlan,
  { copy, tool, other }: { readonly copy: string; readonly tool: number; readonly other?: string },
): Promise<ChoiceExplained> => {
  const served = plan.served.find((each) => each.copy === copy)
  if (!served) throw new DomainError('not_served', `the plan does not serve ${copy}`)
  const reels = served.duties.filter((duty) => duty.tool === tool).map(({ reel }) => reel)
  if (reels.length === 0) throw new DomainError('unknown_id', `${copy} has no tool ${tool}`)
  const against = other ?? obviousOther(slate, copy, tool, reels)
  const told = { copy, tool, reels, other: against }
  if (against === null) return { ...told, differences: [] }
  const part = partOfSlate(withoutLock(slate, copy, tool), copy)
  const free = await match(part)
  const locks = [...(part.locks ?? []), { copy, tool, reel: against }]
  const forced = await match({ ...part, locks })
  return { ...told, differences: differencesOf(free.levels, forced.levels) }
}

/** What a plan has other than another, level by level. */
export const differencesOf = (
  before: readonly LevelResult[],
  after: readonly LevelResult[],
): readonly LevelDifference[] =>
  after.flatMap(({ level, importance, value }, i): readonly LevelDifference[] => {
    const by = value - before[i]!.value
    if (Math.abs(by) < none) return []
    return [{ level, by, ...(importance !== undefined && { importance }) }]
  })

const withoutLock = (slate: MatchSlate, copy: string, tool: number): MatchSlate => ({
  ...slate,
  locks: (slate.locks ?? []).filter((lock) => lock.copy !== copy || lock.tool !== tool),
})

const obviousOther = (
  slate: MatchSlate,
  copy: string,
  tool: number,
  taken: readonly string[],
): string | null => {
  const compiled = compileSlate(withoutLock(slate, copy, tool))
  const task = compiled.copies
    .find(({ id }) => id === copy)
    ?.tasks.find((each) => each.tool === tool)
  const would = (task?.reels ?? []).flatMap((reel) => {
    const { id } = compiled.reels[reel]!
    const judge = loadJudge(compiled, reel)
    const isSafe = [...task!.whole.values()].some((piece) => judge.isSafe([piece]))
    return isSafe && !taken.includes(id) ? [{ id, holds: judge.left([]).value }] : []
  })
  return would.toSorted((a, b) => b.holds - a.holds)[0]?.id ?? null
}
