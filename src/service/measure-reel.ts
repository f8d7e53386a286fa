import type { FactJson, MeasuredFactJson, MeasuredJson } from '../contract/index.ts'
import type { Outcome } from '../units/index.ts'
import { chooseScale } from './choose-scale.ts'
import { coarseCut } from './coarse-cut.ts'
import { findReel } from './find-reel.ts'
import type { HandedIn } from './handed-in.ts'
import { newFactId } from './new-id.ts'
import { overShelf } from './over-shelf.ts'
import { type Recorded, record } from './record.ts'
import { factCommon, type Said } from './said.ts'
import type { ShelfView } from './shelf-view.ts'
import { checkMeasured } from './surprise-of-measured.ts'
import { type WeighingTold, weighingOf } from './weighing-told.ts'

/** What was measured of a reel's filament; at least one thing. */
export interface ReelMeasure
  extends Pick<
    MeasuredFactJson,
    'calipers' | 'immersion' | 'density_g_per_cm3' | 'linear_density_g_per_m' | 'winding'
  > {
  /** A piece cut off and weighed; it comes off the reel. */
  readonly cut?: { readonly length_mm: MeasuredJson; readonly weighing: WeighingTold }
}

/** What a person says beside a measurement; a surprise is taken where they accept it. */
export type SaidOfMeasure = Said & { readonly accept?: boolean }

/**
 * Writes down what was measured of a reel; a piece that was cut off is taken off it as well, in the
 * same transaction. What disagrees with all else that is known is not written down unless it is accepted.
 *
 * @param typed - the reel's id as a person writes it
 * @returns `measure_surprising`, as `findReel`, `chooseScale`, `record`
 */
export const measureReel = (
  handed: HandedIn,
  typed: string,
  measure: ReelMeasure,
  said: SaidOfMeasure = {},
): Promise<Outcome<Recorded>> =>
  overShelf(handed, (view) => measureOver(handed, view, typed, measure, said))

const measureOver = async (
  handed: HandedIn,
  view: ShelfView,
  typed: string,
  { cut, ...measured }: ReelMeasure,
  { accept: isAccepted = false, ...said }: SaidOfMeasure,
): Promise<Outcome<Recorded>> => {
  const reel = findReel(view, typed)
  if (!reel.ok) return reel
  const scale = cut && chooseScale(handed, view.rows, cut.weighing.scale)
  if (scale?.ok === false) return scale
  const common = factCommon(handed, said)
  const weighed = cut &&
    scale && {
      length_mm: cut.length_mm,
      weighing: weighingOf(cut.weighing, scale.value.scale),
    }
  const fact: MeasuredFactJson = {
    kind: 'measured',
    ...common,
    reel: reel.value,
    ...measured,
    ...(weighed && { cut: weighed }),
  }
  const rows = scale?.value.isNew === true ? [scale.value.scale] : []
  const agrees = checkMeasured(view, fact, rows, isAccepted)
  if (!agrees.ok) return agrees
  const facts: FactJson[] = [fact]
  const notes: string[] = []
  if (weighed) {
    facts.push({
      kind: 'trimmed',
      ...common,
      id: newFactId(handed),
      reel: reel.value,
      length_mm: weighed.length_mm,
    })
    notes.push('The piece that was cut off is taken off the reel.')
    const coarse = agrees.value && coarseCut(view, reel.value, weighed, scale.value.scale)
    if (typeof coarse === 'string') notes.push(coarse)
  }
  return record(handed, view, { facts, rows }, notes)
}
