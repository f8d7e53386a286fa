import { loadsOf } from './choice.ts'
import { compileSlate } from './compiled-slate.ts'
import { type LetGo, notKept, wishesInTheWay, withoutWishes } from './let-go.ts'
import { likelyReels } from './likely-reels.ts'
import { loadJudge } from './load-judge.ts'
import type { MatchPlan } from './match-plan.ts'
import { choicesOfPlan } from './plan-choices.ts'
import { type ServedOtherwise, servedOtherwise } from './served-otherwise.ts'
import type { MatchCopy, MatchReel, MatchSlate, MatchTask } from './slate.ts'

/** A remedy that was tried. */
interface Tried {
  /** So many copies of the print more are served with it, ≥ 1. */
  readonly more: number
  /** False where a plan as good may serve another print in its place that is as important and lacks a reel too. */
  readonly sure: boolean
}

/** A reel for a tool of the copy. */
export interface ReelForTool {
  readonly tool: number
  readonly reel: string
}

/** What would let a copy be served, the cheapest kind first. */
export type Remedy =
  /** Do not hold to locks and bars. */
  | ({ readonly kind: 'let_go' } & LetGo & Tried)
  /** Allow changes in mid-print. */
  | ({ readonly kind: 'change'; readonly most: number } & Tried)
  /** Take reels of the same material in another colour. */
  | ({ readonly kind: 'any_colour'; readonly reels: readonly ReelForTool[] } & Tried)
  /**
   * Know better what this reel holds, or two of which one comes in after the other: on average they would do
   * beside all they are asked to do, only not surely. `chance` is that they do, and so about that of a good
   * measurement showing it.
   */
  | { readonly kind: 'measure'; readonly reels: readonly string[]; readonly chance: number }
  /** Have one more reel. */
  | ({ readonly kind: 'new_reel'; readonly reel: string } & Tried)

/** A reel that could be had. */
export interface OfferedReel {
  /** As `newReelWork` knows it. */
  readonly reel: MatchReel
  /** Tools of the copy that it would fit. */
  readonly tools: readonly number[]
}

/** What belongs to a copy that is not served, and what could be had for it. */
export interface RemediesAsked {
  /** Ids of all copies of its print: what is changed of a print is so for each. Of itself only unless given. */
  readonly print?: readonly string[]
  /** The cheapest first; none unless given. */
  readonly offers?: readonly OfferedReel[]
  /** How often copies are taken out of the plan and put back for each that is tried; 24 unless given. */
  readonly rounds?: number
}

/** Most changes that are tried where none are allowed. */
const triedChanges = 2

/**
 * What would let a copy be served that the plan does not serve. Each remedy but a measurement has been
 * tried: with it more copies of the print can be served, and nothing as important of others is left out that
 * was served.
 *
 * @param slate - that the plan is of
 * @returns the cheapest first; empty where nothing here helps
 * @throws DomainError as `matchSlate`
 */
export const remediesFor = (
  slate: MatchSlate,
  plan: MatchPlan,
  copy: string,
  { print = [copy], offers = [], rounds = 24 }: RemediesAsked = {},
): readonly Remedy[] => {
  const asked = slate.copies.find(({ id }) => id === copy)
  if (!asked) return []
  const copies = slate.copies.filter(({ id }) => print.includes(id))
  const lacks = new Set(plan.unserved.map((each) => each.copy))
  const isWhole = copies.every(({ id }) => lacks.has(id))
  const tried: Try = (changed, isOwn = isWhole) =>
    servedOtherwise(changed, plan, { copy, print, isOwn, rounds })
  const found = [
    triedLetGo(
      slate,
      copies.filter(({ id }) => lacks.has(id)),
      print,
      tried,
    ),
    triedChange(slate, asked, copies, tried),
    triedColour(slate, asked, copies, tried),
    measurable(slate, plan, asked),
    triedOffers(slate, copies, offers, tried),
  ]
  return found.filter((remedy) => remedy !== null)
}

/** @param isOwn - as `Wanted.isOwn`; of a change to the whole print unless given */
type Try = (changed: MatchSlate, isOwn?: boolean) => ServedOtherwise | null

const withCopies = (
  slate: MatchSlate,
  copies: readonly MatchCopy[],
  changed: (copy: MatchCopy) => MatchCopy,
): MatchSlate => ({
  ...slate,
  copies: slate.copies.map((each) => (copies.includes(each) ? changed(each) : each)),
})

const withFits = (
  slate: MatchSlate,
  copies: readonly MatchCopy[],
  more: (task: MatchTask) => readonly string[],
): MatchSlate =>
  withCopies(slate, copies, (copy) => ({
    ...copy,
    tasks: copy.tasks.map((task) => ({
      ...task,
      fits: [...new Set([...task.fits, ...more(task)])],
    })),
  }))

const triedLetGo = (
  slate: MatchSlate,
  lacking: readonly MatchCopy[],
  print: readonly string[],
  tried: Try,
): Remedy | null => {
  const ids = new Set<string | undefined>(lacking.map(({ id }) => id))
  const isOwn = ({ locks, bars }: LetGo): boolean =>
    [...locks, ...bars].every(({ copy }) => ids.has(copy))
  // The narrowest that does is the cheapest.
  for (const way of wishesInTheWay(slate, lacking)) {
    const found = tried(withoutWishes(slate, way))
    if (!found) continue
    // What can be kept to need not be let go; what the print itself needs is tried before what others use too.
    const forPrint = found.taken.filter(({ copy }) => print.includes(copy))
    for (const needed of [notKept(way, forPrint), notKept(way, found.taken)]) {
      if (needed.locks.length + needed.bars.length === 0) continue
      const freed = tried(withoutWishes(slate, needed), isOwn(needed))
      if (freed) return { kind: 'let_go', ...needed, ...tellingOf(freed) }
    }
  }
  return null
}

const tellingOf = ({ more, sure }: ServedOtherwise): Tried => ({ more, sure })

const triedChange = (
  slate: MatchSlate,
  { tasks, changes }: MatchCopy,
  copies: readonly MatchCopy[],
  tried: Try,
): Remedy | null => {
  const hasLayers = tasks.every(({ draw }) =>
    draw.every(({ layerEnd_mm }) => layerEnd_mm?.length === draw[0]!.layerEnd_mm?.length),
  )
  if (!hasLayers || !tasks[0]!.draw[0]!.layerEnd_mm) return null
  // Fewer changes are better than more.
  for (let most = changes ? (changes.most ?? 1) + 1 : 1; most <= triedChanges; most++) {
    const allowed = { ...changes, most }
    const found = tried(withCopies(slate, copies, (copy) => ({ ...copy, changes: allowed })))
    if (found) return { kind: 'change', most, ...tellingOf(found) }
  }
  return null
}

const triedColour = (
  slate: MatchSlate,
  { tasks }: MatchCopy,
  copies: readonly MatchCopy[],
  tried: Try,
): Remedy | null => {
  const isOther = ({ tool, reel }: ReelForTool): boolean =>
    tasks.some(
      (task) =>
        task.tool === tool &&
        !task.fits.includes(reel) &&
        task.inAnyColour?.includes(reel) === true,
    )
  const hasOther = tasks.some(({ tool, inAnyColour = [] }) =>
    inAnyColour.some((reel) => isOther({ tool, reel })),
  )
  if (!hasOther) return null
  const found = tried(withFits(slate, copies, ({ inAnyColour = [] }) => inAnyColour))
  if (!found) return null
  const own = new Set(copies.map(({ id }) => id))
  const used = new Map(
    found.taken
      .filter((each) => own.has(each.copy) && isOther(each))
      .map(({ tool, reel }) => [`${tool} ${reel}`, { tool, reel }]),
  )
  return used.size === 0
    ? null
    : { kind: 'any_colour', reels: [...used.values()], ...tellingOf(found) }
}

const triedOffers = (
  slate: MatchSlate,
  copies: readonly MatchCopy[],
  offers: readonly OfferedReel[],
  tried: Try,
): Remedy | null => {
  // The first that helps is the cheapest.
  for (const { reel, tools } of offers) {
    const more = withFits(slate, copies, ({ tool }) => (tools.includes(tool) ? [reel.id] : []))
    const found = tried({ ...more, reels: [...slate.reels, reel] })
    if (found) return { kind: 'new_reel', reel: reel.id, ...tellingOf(found) }
  }
  return null
}

/** Reels that would do on average and not surely, beside all that they are asked to do: one, or two in turn. */
const measurable = (slate: MatchSlate, plan: MatchPlan, copy: MatchCopy): Remedy | null => {
  const compiled = compileSlate(slate)
  const { tasks } = compiled.copies.find(({ id }) => id === copy.id)!
  const [task] = tasks
  if (tasks.length > 1 || !task) return null
  const judges = compiled.reels.map((_, reel) => loadJudge(compiled, reel))
  const loads = loadsOf(choicesOfPlan(compiled, plan), judges.length)
  const likely = likelyReels(compiled, { judges, loads }, task)
  if (!likely || likely.chance <= 0.5) return null
  const reels = likely.reels.map((reel) => compiled.reels[reel]!.id)
  return { kind: 'measure', reels, chance: likely.chance }
}
