import type { FactJson, WeighedJson } from '../contract/index.ts'
import type { WeighingSurprise } from '../estimate/index.ts'
import { accept, formatIsoMinute, formatMass, grams, type Outcome, refuse } from '../units/index.ts'
import { type ShelfView, viewOf } from './shelf-view.ts'
import { testWeighing } from './test-weighing.ts'

/** What is about to be written down of reels. */
export interface DatedBack {
  /** In the order they will stand in. */
  readonly facts: readonly FactJson[]
  /** The reels they change, each from a moment on. */
  readonly reels: readonly { readonly reel: string; readonly at: string }[]
  /** A surprise is taken all the same. */
  readonly isAccepted?: boolean
  /** When it was is not in question: something written down before is put right. */
  readonly isPutRight?: boolean
}

/**
 * Facts dated before a weighing of their reel that stands, held against it: one that agreed with all before
 * it must not come to contradict it without a word, for the whole make would learn from that.
 *
 * @returns `weighed_since` where the first weighing after them would surprise with them and does not without
 */
export const checkWeighedSince = (
  view: ShelfView,
  { facts, reels, isAccepted = false, isPutRight = false }: DatedBack,
): Outcome<void> => {
  if (isAccepted) return accept(undefined)
  for (const { reel, at } of reels) {
    const weighed = firstAfter(view, reel, at)
    if (weighed === undefined) continue
    const without = surpriseOf(view, weighed, [])
    if (!without.ok) return without
    const withThem = surpriseOf(view, weighed, facts)
    if (!withThem.ok) return withThem
    const { surprising, off, predicted } = withThem.value
    if (!surprising || without.value.surprising) continue
    const expected = formatMass({ ...predicted, value: grams(predicted.value) })
    const received = formatMass({ value: grams(weighed.weighing.reading_g), u: 0 })
    const told = isPutRight
      ? `With this put right, ${expected} would have been expected`
      : `With this written down before, ${expected} would have been expected`
    const advice = isPutRight
      ? 'If that weighing is wrong, put it right first.'
      : 'If this came after that weighing, say when it was; if that weighing is wrong, put it right first.'
    return refuse({
      code: 'weighed_since',
      message: `Nothing was recorded: ${reel} was weighed after this, ${formatIsoMinute(weighed.at)}, and the scale showed ${received}. ${told} (${Math.abs(off).toFixed(1)} standard deviations apart). ${advice} If it is so all the same, accept it.`,
      expected,
      received,
    })
  }
  return accept(undefined)
}

const firstAfter = ({ standing }: ShelfView, reel: string, at: string): WeighedJson | undefined =>
  standing.facts
    .filter((fact) => fact.kind === 'weighed')
    .filter((fact) => fact.reel === reel && isAfter(fact.at, at))
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))[0]

/** A weighing against what was there to know when it was made, and what is written down of that time now. */
const surpriseOf = (
  view: ShelfView,
  weighed: WeighedJson,
  facts: readonly FactJson[],
): Outcome<WeighingSurprise> => {
  const known = view.standing.facts.filter(
    (fact) =>
      fact.id !== weighed.id &&
      !('reel' in fact && fact.reel === weighed.reel && isAfter(fact.at, weighed.at)),
  )
  const then = viewOf(view.rows, [...known, ...facts], -1, view.spreads)
  if (!then.ok) return then
  const tested = testWeighing(then.value, weighed)
  return tested.ok ? accept(tested.value.surprise) : tested
}

const isAfter = (a: string, b: string): boolean => Date.parse(a) > Date.parse(b)
