import { compileSlate } from './compiled-slate.ts'
import { loadJudge } from './load-judge.ts'
import type { MatchPlan } from './match-plan.ts'
import type { Matcher } from './match-slate.ts'
import { partOfSlate } from './part-of-slate.ts'
import { dutyPieces } from './plan-choices.ts'
import type { MatchCopy, MatchReel, MatchSlate } from './slate.ts'

/** What would let a copy be served, the cheapest kind first. */
export type Remedy =
  /** Allow changes in mid-print. */
  | { readonly kind: 'change'; readonly most: number; readonly plan: MatchPlan }
  /** Take a reel of the same material in another colour. */
  | { readonly kind: 'any_colour'; readonly reels: readonly string[]; readonly plan: MatchPlan }
  /**
   * Know better what this reel holds: on average it would do beside all it is asked to do, only not surely.
   * `chance` is that it does, and so about that of a good measurement showing it.
   */
  | { readonly kind: 'measure'; readonly reel: string; readonly chance: number }
  /** Have one more reel. */
  | { readonly kind: 'new_reel'; readonly reel: string; readonly plan: MatchPlan }

/** A reel that could be had. */
export interface OfferedReel {
  /** As `newReelWork` knows it. */
  readonly reel: MatchReel
  /** Tools of the copy that it would fit. */
  readonly tools: readonly number[]
}

/** Most changes that are tried where none are allowed. */
const triedChanges = 2

/**
 * What would let a copy be served that the plan does not serve. Each remedy but a measurement has been
 * tried: its plan, of the part of the slate that has to do with the copy, serves it, and leaves out nothing
 * as important that was served.
 *
 * @param match - `matchSlate` with a solver, here or in a thread
 * @param offers - reels that could be had, the cheapest first
 * @returns the cheapest first; empty where nothing here helps
 * @throws DomainError as `matchSlate`
 */
export const remediesFor = async (
  match: Matcher,
  slate: MatchSlate,
  plan: MatchPlan,
  copy: string,
  offers: readonly OfferedReel[] = [],
): Promise<readonly Remedy[]> => {
  const asked = slate.copies.find(({ id }) => id === copy)
  if (!asked) return []
  const found: Remedy[] = []
  const tried = async (changed: MatchSlate): Promise<MatchPlan | null> => {
    const after = await match(partOfSlate(changed, copy))
    return isBetter(slate, plan, after, asked) ? after : null
  }
  const changed = await triedChange(slate, asked, tried)
  if (changed) found.push(changed)
  const inAnyColour = asked.tasks.flatMap(({ fits, inAnyColour: all = [] }) =>
    all.filter((reel) => !fits.includes(reel)),
  )
  if (inAnyColour.length > 0) {
    const tasks = asked.tasks.map(({ tool, draw, fits, inAnyColour: all = fits }) => ({
      tool,
      draw,
      fits: all,
    }))
    const after = await tried(withCopy(slate, { ...asked, tasks }))
    const reels = after?.served
      .find((each) => each.copy === copy)!
      .duties.map(({ reel }) => reel)
      .filter((reel) => inAnyColour.includes(reel))
    if (after && reels && reels.length > 0) found.push({ kind: 'any_colour', reels, plan: after })
  }
  found.push(...measurable(slate, plan, asked))
  for (const { reel, tools } of offers) {
    const tasks = asked.tasks.map((task) =>
      Object.assign({}, task, tools.includes(task.tool) && { fits: [...task.fits, reel.id] }),
    )
    const more = { ...withCopy(slate, { ...asked, tasks }), reels: [...slate.reels, reel] }
    // One after the other: the first that helps is the cheapest.
    // oxlint-disable-next-line no-await-in-loop
    const after = await tried(more)
    if (!after) continue
    found.push({ kind: 'new_reel', reel: reel.id, plan: after })
    break
  }
  return found
}

const withCopy = (slate: MatchSlate, copy: MatchCopy): MatchSlate => ({
  ...slate,
  copies: slate.copies.map((each) => (each.id === copy.id ? copy : each)),
})

/** Whether a copy is served afterwards, and nothing as important is left out that was served. */
const isBetter = (
  { copies }: MatchSlate,
  before: MatchPlan,
  after: MatchPlan,
  { id, importance = 0 }: MatchCopy,
): boolean => {
  const was = new Set(before.served.map(({ copy }) => copy))
  const lost = after.unserved.some(({ copy }) => {
    const { importance: its = 0 } = copies.find((each) => each.id === copy)!
    return was.has(copy) && its >= importance
  })
  return !lost && after.served.some(({ copy }) => copy === id)
}

const triedChange = async (
  slate: MatchSlate,
  copy: MatchCopy,
  tried: (changed: MatchSlate) => Promise<MatchPlan | null>,
): Promise<Remedy | null> => {
  const { tasks, changes } = copy
  const hasLayers = tasks.every(({ draw }) =>
    draw.every(({ layerEnd_mm }) => layerEnd_mm?.length === draw[0]!.layerEnd_mm?.length),
  )
  if (!hasLayers || !tasks[0]!.draw[0]!.layerEnd_mm) return null
  for (let most = changes ? (changes.most ?? 1) + 1 : 1; most <= triedChanges; most++) {
    // Fewer changes are better than more.
    // oxlint-disable-next-line no-await-in-loop
    const plan = await tried(withCopy(slate, { ...copy, changes: { ...changes, most } }))
    if (plan) return { kind: 'change', most, plan }
  }
  return null
}

/** Reels that would do on average and not surely, beside all that they are asked to do. */
const measurable = (slate: MatchSlate, plan: MatchPlan, copy: MatchCopy): readonly Remedy[] => {
  const compiled = compileSlate(slate)
  const asked = compiled.copies.find(({ id }) => id === copy.id)!
  if (asked.tasks.length > 1) return []
  const pieceOf = dutyPieces(compiled, plan)
  const found = asked.tasks[0]!.reels.flatMap((reel): readonly (Remedy & { kind: 'measure' })[] => {
    const judge = loadJudge(compiled, reel)
    const { id } = compiled.reels[reel]!
    const duties = plan.reels.find((each) => each.reel === id)?.duties ?? []
    const load = duties.flatMap((duty) => pieceOf(duty) ?? [])
    const chance = Math.max(
      ...[...asked.tasks[0]!.whole.values()].map((piece) => judge.chance([...load, piece])),
    )
    return chance > 0.5 ? [{ kind: 'measure', reel: id, chance }] : []
  })
  return found.toSorted((a, b) => b.chance - a.chance).slice(0, 1)
}
