import { bestChoice } from './best-choice.ts'
import { type Choice, type Choices, loadsOf } from './choice.ts'
import type { CompiledCopy, CompiledSlate } from './compiled-slate.ts'
import { drawOf } from './first-plan.ts'
import { canBeLate } from './last-end.ts'
import { mostInTime } from './most-in-time.ts'
import { comparePlans } from './plan-value.ts'
import { jobsOf } from './print-job.ts'
import type { LoadMaker, ReelLoad } from './reel-load.ts'

/** How a plan is rebuilt. */
export interface Rebuilding {
  /** Places of the copies that may be put elsewhere. */
  readonly copies: readonly number[]
  /** How often at most. */
  readonly rounds: number
  /** Asked before each; true ends it. */
  readonly isOver: () => boolean
  /** Whether prints may be changed to be in time, not only where no reel does them by itself; not unless given. */
  readonly changes?: boolean
}

/** Copies taken out in one round, at most. */
const mostTaken = 16
/** So many rounds that make nothing better end it. */
const patience = 60
/** How many beginnings of a sequence are looked at side by side for what is late. */
const fewBegun = 50
/** Copies taken out beside those of a reel, at most. */
const mostBeside = 4

/**
 * A plan made better by taking copies out, those of a reel or two or some by chance, and putting each back
 * where it adds least, level by level; what comes of it is kept unless it is worse. The chances are the
 * same each time, and every load stays safe. Where copies can be late each goes back on its printer or on
 * another by chance, and how many are is looked at in the end.
 *
 * @returns choices for all copies, those of others as they were
 * @see G. Schrimpf et al., Journal of Computational Physics 159 (2000) 139–171 (from memory)
 */
export const rebuiltPlan = (
  slate: CompiledSlate,
  maker: LoadMaker,
  choices: Choices,
  { copies, rounds, isOver, changes = false }: Rebuilding,
): Choices => {
  const random = likeChance()
  const below = (count: number): number => Math.floor(random() * count)
  const isTimed = canBeLate(slate, copies)
  const isMovable = new Set(copies)
  /** Printers it may be put on. */
  const printersOf = (copy: number, own: Choice | null): readonly number[] => {
    const { printers } = slate.copies[copy]!
    if (!isTimed || printers.length === 1) return printers
    if (own && random() < 0.5) return [own.printer]
    return [printers[below(printers.length)]!]
  }
  const lateOf = (all: Choices): number => {
    const due = jobsOf(slate, all).filter(
      ({ copy, due_h }) => due_h < Infinity && isMovable.has(copy),
    )
    return due.length - mostInTime(due, slate.free_h, { width: fewBegun }).jobs.length
  }
  const importances = [...new Set(copies.map((copy) => slate.copies[copy]!.importance))].toSorted(
    (a, b) => b - a,
  )
  const now: (Choice | null)[] = [...choices]
  let late = isTimed ? lateOf(now) : 0
  const loads: ReelLoad[] = loadsOf(choices, slate.reels.length).map((load, reel) =>
    maker.made(reel, load),
  )

  /** Copies to take out; those that are not served are tried anew each time. */
  const taken = (): readonly number[] => {
    const out = new Set(copies.filter((copy) => now[copy] === null))
    const served = copies.filter((copy) => now[copy] !== null)
    const one = (): number => served[below(served.length)]!
    const withReel = (copy: number): void => {
      const { servings } = now[copy]!
      const { reel } = servings[below(servings.length)]!
      for (const piece of loads[reel]!.load) if (isMovable.has(piece.copy)) out.add(piece.copy)
    }
    if (served.length === 0) return [...out]
    const reels = below(3)
    for (let i = 0; i < reels; i++) withReel(one())
    if (reels !== 1 || random() < 0.5) for (let i = below(mostBeside); i >= 0; i--) out.add(one())
    return [...out]
  }

  let sinceBetter = 0
  for (let round = 0; round < rounds && sinceBetter < patience && !isOver(); round++) {
    const out = taken()
    if (out.length === 0) break
    if (out.length > mostTaken) continue
    const before = new Map(out.map((copy) => [copy, now[copy]!]))
    const was = new Map<number, ReelLoad>()
    for (const choice of before.values()) {
      for (const { reel } of choice?.servings ?? []) was.set(reel, loads[reel]!)
    }
    for (const [reel, { load }] of was) {
      // A part of a safe load is safe.
      const rest = load.filter(({ copy }) => !before.has(copy))
      loads[reel] = maker.made(reel, rest)
    }
    for (const copy of out) now[copy] = null
    const leaves = random() < 0.5 ? 'least' : 'most'
    // The largest first, but not always: what comes first has the choice.
    const isLargest = random() < 0.5
    const rank = new Map(
      out.map((copy) => [
        copy,
        isLargest && random() < 0.8 ? -drawOf(slate.copies[copy]!) : random(),
      ]),
    )
    const order = out.toSorted((a, b) => rank.get(a)! - rank.get(b)!)
    for (const copy of order) {
      const printers = printersOf(copy, before.get(copy)!)
      const asked = slate.copies[copy]!
      // A change is better than waiting for a reel and being late.
      const isIdle = changes && late > 0 && mayChange(asked) && random() < 0.3
      const wish = { printers, leaves } as const
      const choice =
        (isIdle ? bestChoice(slate, maker, loads, asked, { ...wish, idle: true }) : null) ??
        bestChoice(slate, maker, loads, asked, wish)
      if (!choice) continue
      now[copy] = choice
      for (const [reel, load] of choice.after) {
        if (!was.has(reel)) was.set(reel, loads[reel]!)
        loads[reel] = load
      }
    }
    const unserved = (of: (copy: number) => Choice | null): readonly number[] =>
      importances.map(
        (each) => out.filter((copy) => slate.copies[copy]!.importance === each && !of(copy)).length,
      )
    const served = comparePlans(
      unserved((copy) => now[copy]!),
      unserved((copy) => before.get(copy)!),
    )
    const lateThen = isTimed && served <= 0 ? lateOf(now) : late
    const more =
      served ||
      lateThen - late ||
      comparePlans(costOf(was.keys().map((reel) => loads[reel]!)), costOf(was.values()))
    sinceBetter = more < 0 ? 0 : sinceBetter + 1
    if (more <= 0) {
      late = lateThen
      continue
    }
    for (const [copy, choice] of before) now[copy] = choice
    for (const [reel, load] of was) loads[reel] = load
  }
  return now
}

const mayChange = ({ tasks }: CompiledCopy): boolean =>
  tasks.some(({ mostChanges }) => mostChanges > 0)

/** What loads cost together, level by level. */
const costOf = (loads: Iterable<ReelLoad>): readonly number[] => {
  const sum = [0, 0, 0, 0, 0]
  for (const { cost } of loads) {
    const { changes, opened, different, stubs, swaps } = cost
    for (const [i, part] of [changes, opened, different, stubs, swaps].entries()) sum[i]! += part
  }
  return sum
}

/** Numbers from 0 to 1 as if by chance, the same each time (a linear congruence, from memory). */
const likeChance = (): (() => number) => {
  let state = 1
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) | 0
    return (state >>> 0) / 2 ** 32
  }
}
