import type { CatalogueRowJson, MeasuredFactJson } from '../contract/index.ts'
import { shelfBelief } from '../estimate/index.ts'
import { checkNewFact } from '../ledger/index.ts'
import { accept, formatMeasured, measured, type Outcome, refuse } from '../units/index.ts'
import { reelNow } from './reel-now.ts'
import { type ShelfView, viewOf } from './shelf-view.ts'

/**
 * Whether what was measured of a reel's filament agrees with all that is known without it.
 *
 * @param rows - new ones that it needs: its scale
 * @returns true where it agrees, false where it does not and that is accepted; `measure_surprising`
 *   beyond 3 standard deviations, and as `checkNewFact`
 */
export const checkMeasured = (
  view: ShelfView,
  fact: MeasuredFactJson,
  rows: readonly CatalogueRowJson[],
  isAccepted: boolean,
): Outcome<boolean> => {
  const sensible = checkNewFact(fact, [...view.rows, ...rows], view.facts)
  if (!sensible.ok) return sensible
  if (!view.estimate.book.reelAt.has(fact.reel)) return accept(true)
  const after = viewOf([...view.rows, ...rows], [...view.facts, fact], -1, view.spreads)
  if (!after.ok) return after
  const { used } = shelfBelief(after.value.estimate, fact.reel)
  const [farthest] = used
    .filter((each) => each.fact === fact.id && each.surprising)
    .toSorted((a, b) => Math.abs(b.off) - Math.abs(a.off))
  if (farthest === undefined || isAccepted) return accept(farthest === undefined)
  const { what, off } = farthest
  return refuse({
    code: 'measure_surprising',
    message: `Nothing was recorded: what is known of ${fact.reel} besides ${what} puts it ${Math.abs(off).toFixed(1)} standard deviations ${off > 0 ? 'lower' : 'higher'} than given.${perMetre(view, fact)} Usual reasons: a slipped digit or unit, another reel, a scale too coarse for a piece so light. Measure again. If it is so all the same, accept it.`,
  })
}

/** The grams per metre told, beside those believed. */
const perMetre = (
  view: ShelfView,
  { reel, cut, linear_density_g_per_m: given }: MeasuredFactJson,
): string => {
  const told = cut
    ? (1000 * (cut.weighing.reading_g - (cut.weighing.extra_g?.value ?? 0))) / cut.length_mm.value
    : given?.value
  if (told === undefined) return ''
  const { linearDensity } = reelNow(view, reel)
  return ` It tells ${formatMeasured(measured(Number(told.toPrecision(4))), 'g/m')}, and ${formatMeasured(linearDensity, 'g/m')} is believed.`
}
