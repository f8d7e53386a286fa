import { bestChoice } from './best-choice.ts'
import { type Choice, loadsOf } from './choice.ts'
import { type CompiledSlate, compileSlate } from './compiled-slate.ts'
import { askedOf, type LoadJudge, loadJudge } from './load-judge.ts'
import type { MatchPlan } from './match-plan.ts'
import { partOfSlate } from './part-of-slate.ts'
import { choicesOfPlan } from './plan-choices.ts'
import { rebuiltPlan } from './rebuilt-plan.ts'
import { type LoadMaker, loadMaker } from './reel-load.ts'
import type { MatchSlate } from './slate.ts'

/** A reel for a tool of a copy. */
export interface ReelTaken {
  readonly copy: string
  readonly tool: number
  readonly reel: string
}

/** How copies of a print can be served in a slate that was changed for them. */
export interface ServedOtherwise {
  /** So many more of them than before, ≥ 1. */
  readonly more: number
  /**
   * True where no plan as good leaves the print out for another that the plan does not serve either, of all
   * plans of the changed slate.
   */
  readonly sure: boolean
  /** What serves the part of the slate that has to do with them. */
  readonly taken: readonly ReelTaken[]
}

/** What is looked for. */
export interface Wanted {
  /** One that the plan does not serve. */
  readonly copy: string
  /** Ids of all copies of its print. */
  readonly print: readonly string[]
  /** Whether more is allowed to copies of the print only that are not served. */
  readonly isOwn: boolean
  /** How often copies are taken out of the plan and put back, where it has no room as it is. */
  readonly rounds: number
}

/**
 * How a changed slate serves more copies of a print than the plan does, and leaves out nothing as important
 * of others that the plan serves. What it finds holds; it may miss what only a solver finds. It counts its
 * steps and knows no clock, so that the same is found each time.
 *
 * @param changed - the slate of the plan with more allowed
 * @returns null where it finds nothing
 */
export const servedOtherwise = (
  changed: MatchSlate,
  plan: MatchPlan,
  { copy, print, isOwn, rounds }: Wanted,
): ServedOtherwise | null => {
  const compiled = compileSlate(withoutTimes(partOfSlate(changed, copy)))
  const judges = compiled.reels.map((_, reel) => loadJudge(compiled, reel))
  const maker = loadMaker(compiled, judges)
  const own = new Set(print)
  const was = new Set(plan.served.map((each) => each.copy))
  const least = Math.min(...compiled.copies.flatMap((c) => (own.has(c.id) ? [c.importance] : [])))
  const moreIn = (choices: readonly (Choice | null)[]): number => {
    let more = 0
    for (const { place, id, importance } of compiled.copies) {
      const isServed = choices[place] !== null
      if (own.has(id)) more += Number(isServed) - Number(was.has(id))
      else if (was.has(id) && !isServed && importance >= least) return 0
    }
    return more
  }
  let choices = withRoomTaken(compiled, maker, safeChoices(compiled, judges, plan), own)
  if (moreIn(choices) <= 0 && rounds > 0) {
    const copies = compiled.copies.map(({ place }) => place)
    choices = [...rebuiltPlan(compiled, maker, choices, { copies, rounds, isOver: () => false })]
  }
  const more = moreIn(choices)
  if (more <= 0) return null
  const taken = choices.flatMap((choice) =>
    (choice?.servings ?? []).map(({ piece, reel }) => ({
      copy: compiled.copies[piece.copy]!.id,
      tool: piece.tool,
      reel: compiled.reels[reel]!.id,
    })),
  )
  // What only these copies may use helps nobody else; and where nobody else lacks anything nobody takes it.
  const isWithout = plan.levels.every(
    ({ level, value, bound }) => level !== 'unserved' || value <= bound,
  )
  const isAlone = compiled.copies.every(
    ({ id, importance }) => own.has(id) || was.has(id) || importance < least,
  )
  return { more, sure: isAlone || (isOwn && isWithout), taken }
}

/** What is late is decided after what is served. */
const withoutTimes = (slate: MatchSlate): MatchSlate => ({
  ...slate,
  copies: slate.copies.map((copy) => Object.assign({}, copy, { due_h: Infinity })),
})

/** The plan's choices as far as they hold in a slate where more is asked of a reel that is changed for another. */
const safeChoices = (
  compiled: CompiledSlate,
  judges: readonly LoadJudge[],
  plan: MatchPlan,
): readonly (Choice | null)[] => {
  const choices = choicesOfPlan(compiled, plan)
  const unsafe = new Set<number>()
  for (const [reel, load] of loadsOf(choices, judges.length).entries()) {
    if (judges[reel]!.chance(load) >= askedOf(load)) continue
    for (const piece of load) unsafe.add(piece.copy)
  }
  return choices.map((choice, place) => (unsafe.has(place) ? null : choice))
}

/** With the copies that are not served put where there is room, those of the print first. */
const withRoomTaken = (
  compiled: CompiledSlate,
  maker: LoadMaker,
  choices: readonly (Choice | null)[],
  own: ReadonlySet<string>,
): (Choice | null)[] => {
  const now = [...choices]
  const loads = loadsOf(choices, compiled.reels.length).map((load, reel) => maker.made(reel, load))
  const left = compiled.copies.filter(({ place }) => now[place] === null)
  const order = left.toSorted((a, b) => Number(own.has(b.id)) - Number(own.has(a.id)))
  for (const copy of order) {
    const choice = bestChoice(compiled, maker, loads, copy)
    if (!choice) continue
    now[copy.place] = choice
    for (const [reel, load] of choice.after) loads[reel] = load
  }
  return now
}
