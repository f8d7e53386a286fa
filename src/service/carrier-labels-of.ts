import type { MakeRowJson } from '../contract/index.ts'
import { carrierLabels } from '../ledger/index.ts'
import type { ShelfView } from './shelf-view.ts'

/** The sizes of carrier that a make's reels came on, retired ones too, by their labels: as `carrierLabels`. */
export const carrierLabelsOf = (
  { cards }: Pick<ShelfView, 'cards'>,
  make: MakeRowJson,
): readonly number[] =>
  carrierLabels(
    make,
    [...cards.values()]
      .filter(({ opened }) => opened.make === make.id)
      .map(({ opened }) => opened.label_net_g),
  )
