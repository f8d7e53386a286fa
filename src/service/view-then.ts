import type { Outcome } from '../units/index.ts'
import { accept } from '../units/index.ts'
import { type ShelfView, viewOf } from './shelf-view.ts'

/**
 * The shelf as it is believed to have been, for a fact that is dated back: without what happened to
 * the reel later. The view itself where nothing did.
 *
 * @param at - moment of the fact; what was written down before at the same moment is kept
 * @returns a refusal where the facts before do not fit together
 */
export const viewThen = (view: ShelfView, reel: string, at: string): Outcome<ShelfView> => {
  const later = view.standing.facts.filter(
    (fact) =>
      fact.kind !== 'opened' && 'reel' in fact && fact.reel === reel && isAfter(fact.at, at),
  )
  if (later.length === 0) return accept(view)
  const left = new Set(later)
  const before = view.standing.facts.filter((fact) => !left.has(fact))
  return viewOf(view.rows, before, -1, view.spreads)
}

const isAfter = (a: string, b: string): boolean => Date.parse(a) > Date.parse(b)
