import {
  cutsAt,
  cutsUntil,
  isThinned,
  likelyCuts,
  rising,
  withCuts,
  withEven,
} from './change-cuts.ts'
import type { Choices } from './choice.ts'
import type { CompiledSlate, CompiledTask, Cut } from './compiled-slate.ts'
import { stubsOf, withLeastStubs } from './least-stubs.ts'
import { inHalf, isOver, type SolveOptions } from './level-at-hand.ts'
import { comparePlans, sameValue } from './plan-value.ts'
import type { ProblemLevel } from './problem-level.ts'
import { changedNodes, isReal, realChoices } from './real-choices.ts'
import { gramsWithin } from './solve-loads.ts'
import { type PartStated, type SolvedStated, solveStated } from './solve-stated.ts'

/** How often at most cuts are divided. */
const mostDivided = 16

/** How often they are divided for what is left. */
const mostForStubs = 4

/** The nodes at which cuts of a task end, by its place, rising. */
type Ends = ReadonlyMap<number, readonly number[]>

/**
 * A part with prints changed in mid-print, where that makes a level before `changes` better than it is without.
 *
 * Of a print of many layers the layer ends are put together to cuts, of which it is left open where in them the
 * change is: what comes before it has to reach only the first, what comes after it begins at the last. The best of
 * that is a bound of every plan. Where a plan with the same reels is as good, that is the best; where there is none
 * the cuts are divided and it is asked again (Boland et al. 2017, from memory, divide times so). What is left on
 * the reels hangs on where exactly a change is; for that only some layer ends are looked at.
 *
 * @param whole - the best without changes
 * @param start - choices to begin with
 */
export const solveChanged = async (
  stated: PartStated,
  whole: SolvedStated,
  start: Choices,
  options: SolveOptions,
): Promise<SolvedStated> => {
  const { slate, part } = stated
  const mayChange = part.copies.flatMap((copy) =>
    slate.copies[copy]!.tasks.filter((task) => task.mostChanges > 0),
  )
  const ends = new Map(
    mayChange
      .filter(isThinned)
      .map((task) => [task.place, likelyCuts(slate, stated.maker, task)] as const),
  )
  const placeOf = (at: ProblemLevel['level']): number =>
    whole.levels.findIndex(({ level }) => level === at)
  const earlier = placeOf('changes')
  const first = await boundedBy('changes', stated, { choices: start, ends }, inHalf(options))
  if (comparePlans(first.values, whole.values.slice(0, earlier)) >= 0) {
    const bounds = boundsOf(whole, first.known).slice(0, earlier)
    return { ...whole, bounds: [...bounds, ...whole.bounds.slice(earlier)] }
  }
  const isOpen = ends.size > 0
  const { known, choices } = isOpen
    ? await boundedBy('stubs', stated, first, inHalf(options))
    : first
  const cutsOf = (task: CompiledTask): readonly Cut[] => {
    const likely = ends.get(task.place)
    return likely
      ? cutsAt(withEven(task, rising([...likely, ...changedNodes(choices, task)])))
      : task.cuts
  }
  const looked = withCuts(slate, cutsOf)
  const solved = await solveStated({ ...stated, slate: looked, withParts: true }, choices, {
    ...options,
    known,
  })
  return isOpen ? boundedBehind(stated, solved, { ends, known }, options) : solved
}

/**
 * With bounds of what is left on reels and of swaps as well: changes are put where they leave least stubs, each by
 * itself, and the rest is asked with cuts left open.
 */
const boundedBehind = async (
  stated: PartStated,
  looked: SolvedStated,
  { ends, known }: Required<Pick<Sofar, 'ends' | 'known'>>,
  options: SolveOptions,
): Promise<SolvedStated> => {
  const { slate, maker } = stated
  const stubs = looked.levels.findIndex(({ level }) => level === 'stubs')
  const solvedWith = (choices: Choices, values: readonly number[]): SolvedStated => {
    const better = withLeastStubs(slate, maker, choices)
    const less_g = stubsOf(slate, maker, looked.choices) - stubsOf(slate, maker, better)
    return {
      ...looked,
      choices: better,
      values: values.with(stubs, looked.values[stubs]! - less_g),
    }
  }
  let solved = solvedWith(looked.choices, looked.values)
  let bounds = boundsOf(solved, known)
  const isProven = (upTo: number): boolean =>
    bounds.slice(0, upTo).every((bound, i) => solved.values[i]! <= bound + gramsWithin)
  if (!isProven(stubs)) return { ...solved, bounds }
  // What the plan has stands by itself, so that what is left open is other than that.
  let open: Ends = new Map(
    [...ends].map(([place, own]) => {
      const nodes = changedNodes(solved.choices, slate.tasks[place]!)
      return [place, rising([...own, ...nodes.flatMap((node) => [Math.max(1, node - 1), node])])]
    }),
  )
  const ask = (useful_g: number, more: SolveOptions): Promise<SolvedStated> => {
    const at = { ...openAt(slate, ({ place }) => open.get(place)), useful_g }
    return solveStated(
      { ...stated, slate: at, rebuiltOn: slate, withParts: true },
      solved.choices,
      more,
    )
  }
  for (let round = 0; round < mostForStubs && !isOver(options); round++) {
    // Each round hangs on the one before.
    // oxlint-disable-next-line no-await-in-loop
    const left = await ask(slate.useful_g, {
      ...inHalf(options),
      known: { values: solved.values, bounds },
      until: 'swaps',
    })
    bounds = boundsOf(solved, left)
    if (isProven(stubs + 1)) break
    const real = realChoices(slate, maker, left.choices)
    const found = real.choices && solvedWith(real.choices, solved.values)
    if (found && found.values[stubs]! < solved.values[stubs]! - sameValue) solved = found
    if (isReal(left.choices)) break
    open = divided(
      openAt(slate, ({ place }) => open.get(place)),
      left.choices,
      real.ends,
      open,
    )
  }
  if (!isProven(stubs + 1) || isOver(options)) return { ...solved, bounds }
  // Whatever is left, so many swaps there are.
  const swaps = await ask(0, {
    ...options,
    known: { values: solved.values.slice(0, stubs), bounds: bounds.slice(0, stubs) },
  })
  return { ...solved, bounds: [...bounds.slice(0, -1), swaps.bounds.at(-1)!] }
}

/** What a plan with these values can not be better than at each level, as far as that is known. */
const boundsOf = (
  { values, least }: Pick<SolvedStated, 'values' | 'least'>,
  known: Pick<SolvedStated, 'values' | 'bounds'>,
): readonly number[] =>
  values.map((value, i) => {
    const isKnown =
      i < known.bounds.length &&
      known.values.slice(0, i).every((other, k) => values[k]! <= other + sameValue)
    return isKnown ? Math.min(value, known.bounds[i]!) : least[i]!
  })

/** Cuts left open in all tasks for which it is said where they end. */
const openAt = (
  slate: CompiledSlate,
  endsOf: (task: CompiledTask) => readonly number[] | undefined,
): CompiledSlate =>
  withCuts(slate, (task) => {
    const ends = endsOf(task)
    return ends ? cutsUntil(task, ends) : task.cuts
  })

/** How far the search for the best with cuts left open has come. */
interface Sofar {
  /** The best plan. */
  readonly choices: Choices
  /** Where the cuts end of tasks of many layers, by place. */
  readonly ends: Ends
  /** What no plan is better than. */
  readonly known?: SolvedStated
}

/** Divides cuts until a plan is as good at the levels before one as the bound, or there is no time. */
const boundedBy = async (
  until: ProblemLevel['level'],
  stated: PartStated,
  sofar: Sofar,
  options: SolveOptions,
): Promise<Required<Sofar> & { readonly values: readonly number[] }> => {
  const { slate, maker } = stated
  let { ends, known } = sofar
  const { choices } = sofar
  for (let round = 0; ; round++) {
    const open = openAt(slate, ({ place }) => ends.get(place))
    // Each round hangs on the one before.
    // oxlint-disable-next-line no-await-in-loop
    const solved: SolvedStated = await solveStated(
      { ...stated, slate: open, rebuiltOn: slate, withParts: true },
      choices,
      { ...options, until, ...(known && { known }) },
    )
    known = solved
    const values = solved.before.slice(0, solved.values.length)
    if (comparePlans(solved.values, values) >= 0) return { choices, ends, known, values }
    const real = realChoices(slate, maker, solved.choices)
    if (real.choices) return { choices: real.choices, ends, known, values: solved.values }
    if (round >= mostDivided || isOver(options)) return { choices, ends, known, values }
    ends = divided(open, solved.choices, real.ends, ends)
  }
}

/** Divides the cuts in which prints are changed: where reels end in truth, or in the middle. */
const divided = (
  { tasks }: CompiledSlate,
  choices: Choices,
  wanted: ReadonlyMap<number, readonly number[]>,
  ends: Ends,
): Ends =>
  new Map(
    [...ends].map(([place, own]) => {
      const { cuts } = tasks[place]!
      const more = changedNodes(choices, tasks[place]!).flatMap((node) => {
        const { first, last } = cuts.find((cut) => node <= cut.last)!
        if (first === last) return []
        const inside = (wanted.get(place) ?? []).filter((end) => end >= first && end < last)
        return inside.length > 0 ? inside : [Math.floor((first + last) / 2)]
      })
      return [place, rising([...own, ...more])]
    }),
  )
