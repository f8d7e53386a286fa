import type { MeasuredFactJson, ScaleRowJson } from '../contract/index.ts'
import { readingVariance } from '../filament/index.ts'
import { formatLength, grams, measured, millimetres } from '../units/index.ts'
import { reelNow } from './reel-now.ts'
import type { ShelfView } from './shelf-view.ts'

/** Beyond this nobody cuts filament to weigh it, mm. */
const longest = 20_000

/**
 * What is to be said of a cut length that was weighed more coarsely than its reel's linear density is
 * known already.
 *
 * @param view - the shelf without it
 * @param reel - a reel of the shelf
 * @returns a sentence or two; undefined where it tells more than was known
 */
export const coarseCut = (
  view: ShelfView,
  reel: string,
  { length_mm, weighing }: NonNullable<MeasuredFactJson['cut']>,
  { name, step_g, repeatability_g }: ScaleRowJson,
): string | undefined => {
  if (!view.estimate.book.reelAt.has(reel)) return undefined
  const stated = { displayStep: grams(step_g), repeatability: grams(repeatability_g) }
  const u = Math.hypot(weighing.u_g ?? Math.sqrt(readingVariance(stated)), weighing.extra_g?.u ?? 0)
  const { linearDensity: known } = reelNow(view, reel)
  const told = (1000 * u) / length_mm.value
  if (!(told > known.u)) return undefined
  const sameFrom = Math.ceil(((told / known.u) * length_mm.value) / 1000)
  const longer =
    1000 * sameFrom > longest
      ? 'No length that is handy to cut would tell more: only a finer scale does.'
      : `A piece of ${sameFrom} m would tell as much as is known, a finer scale more.`
  const piece = formatLength(measured(millimetres(length_mm.value)))
  return `A piece of ${piece}, weighed to ± ${twoFigures(u)} g on ${name}, tells the grams per metre to ± ${twoFigures(told)}; they were known to ± ${twoFigures(known.u)} before, so it adds little. ${longer}`
}

const twoFigures = (value: number): string => String(Number(value.toPrecision(2)))
