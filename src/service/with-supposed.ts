import type {
  CatalogueRowJson,
  FactJson,
  MeasuredFactJson,
  ScaleRowJson,
} from '../contract/index.ts'
import { kitchenScale } from '../filament/index.ts'
import { checkNewFact } from '../ledger/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { firstScaleName, usualScale } from './choose-scale.ts'
import { findReel } from './find-reel.ts'
import { findRow, rowsOf } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import type { ReelMeasure } from './measure-reel.ts'
import { type ShelfView, viewOf } from './shelf-view.ts'
import { type WeighingTold, weighingOf } from './weighing-told.ts'

/** What is supposed to have been measured for a reel; nothing is written down. */
export interface Supposed extends Pick<ReelMeasure, 'calipers' | 'cut'> {
  /** Of another carrier of its make, weighed empty. */
  readonly emptyCarrier?: WeighingTold
}

/**
 * The shelf as it would be known if that had been measured now: each as it would be written down, a piece
 * that was cut off taken off its reel. What would surprise is not held back: the belief tells of it.
 *
 * @param supposed - by the reel's id as it is typed
 * @returns the same view where nothing is supposed; refusals as `findReel`, `findRow`, `checkNewFact`
 */
export const withSupposed = (
  view: ShelfView,
  { now }: Pick<HandedIn, 'now'>,
  supposed: readonly (Supposed & { readonly reel: string })[],
): Outcome<ShelfView> => {
  const at = new Date(now()).toISOString()
  const rows: CatalogueRowJson[] = [...view.rows]
  const facts: FactJson[] = []
  const common = (): Pick<FactJson, 'id' | 'at' | 'recorded_at'> => ({
    id: `supposed ${facts.length}`,
    at,
    recorded_at: at,
  })
  for (const { reel: typed, emptyCarrier, calipers, cut } of supposed) {
    if (!emptyCarrier && !calipers && !cut) continue
    const found = findReel(view, typed)
    if (!found.ok) return found
    const reel = found.value
    if (emptyCarrier) {
      const scale = scaleOf(rows, emptyCarrier, at)
      if (!scale.ok) return scale
      const { make, label_net_g } = view.cards.get(reel)!.opened
      const size = label_net_g === undefined ? {} : { label_net_g }
      const weighing = weighingOf(emptyCarrier, scale.value)
      facts.push({ kind: 'carrier-weighed', ...common(), make, ...size, weighing })
    }
    if (calipers) facts.push({ kind: 'measured', ...common(), reel, calipers })
    if (cut) {
      const scale = scaleOf(rows, cut.weighing, at)
      if (!scale.ok) return scale
      const { length_mm } = cut
      const weighed: MeasuredFactJson['cut'] = {
        length_mm,
        weighing: weighingOf(cut.weighing, scale.value),
      }
      facts.push({ kind: 'measured', ...common(), reel, cut: weighed })
      facts.push({ kind: 'trimmed', ...common(), reel, length_mm })
    }
  }
  if (facts.length === 0) return accept(view)
  for (const fact of facts) {
    const sensible = checkNewFact(fact, rows, view.facts)
    if (!sensible.ok) return sensible
  }
  return viewOf(rows, [...view.facts, ...facts], -1, view.spreads)
}

/** The one named, or the only one in use; where there is none, or several, a usual one that joins the rows. */
const scaleOf = (
  rows: CatalogueRowJson[],
  { scale: typed }: WeighingTold,
  at: string,
): Outcome<ScaleRowJson> => {
  if (typed !== undefined) return findRow(rows, 'scale', typed)
  const [one, ...more] = rowsOf(rows, 'scale').filter(({ retired }) => retired !== true)
  if (one !== undefined && more.length === 0) return accept(one)
  const known = rowsOf(rows, 'scale').find(({ id }) => id === unnamed)
  if (known !== undefined) return accept(known)
  const usual: ScaleRowJson = {
    kind: 'scale',
    id: unnamed,
    changed_at: at,
    name: firstScaleName,
    ...usualScale,
    gain: kitchenScale.gain,
    // It is on no bench: what is measured next is not measured on it.
    retired: true,
  }
  rows.push(usual)
  return accept(usual)
}

const unnamed = 'supposed scale'
