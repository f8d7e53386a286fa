import { kitchenScale } from '../filament/index.ts'
import { accept, grams, measured, type Outcome } from '../units/index.ts'
import type { WeighingNow } from './believe-reel.ts'
import { usualScale } from './choose-scale.ts'
import { findRow, rowsOf } from './find-row.ts'
import type { ShelfView } from './shelf-view.ts'
import { type WeighingTold, weighingOf } from './weighing-told.ts'

/** Id of the only scale in use. */
export const onlyScale = ({ rows }: Pick<ShelfView, 'rows'>): string | undefined => {
  const [one, ...more] = rowsOf(rows, 'scale').filter(({ retired }) => retired !== true)
  return more.length === 0 ? one?.id : undefined
}

/**
 * A weighing told now of a reel of the shelf. Where no scale is named it stood on the only one, else on that
 * of its last weighing, else on a usual kitchen scale.
 *
 * @param reel - id
 * @returns refusals as `findRow`
 */
export const weighingNow = (
  view: Pick<ShelfView, 'rows' | 'cards' | 'shelf'>,
  reel: string,
  told: WeighingTold | undefined,
): Outcome<WeighingNow | undefined> => {
  if (told === undefined) return accept(undefined)
  const { extra_g: extra } = told
  const found = told.scale === undefined ? undefined : findRow(view.rows, 'scale', told.scale)
  if (found?.ok === false) return found
  const last = view.cards.get(reel)?.lastWeighing?.weighing.scale
  const id = found?.value.id ?? onlyScale(view) ?? last
  const row = rowsOf(view.rows, 'scale').find((each) => each.id === id)
  const scale = view.shelf.catalogue.scales.find((each) => each.id === id)
  const usual = { id: 'kitchen scale', scale: kitchenScale }
  const { u_g } = weighingOf(told, row ?? { id: usual.id, ...usualScale })
  return accept({
    scale: scale ?? usual,
    reading: grams(told.reading_g),
    ...(u_g !== undefined && { u: u_g }),
    ...(extra && { extra: measured(grams(extra.value), extra.u) }),
  })
}
