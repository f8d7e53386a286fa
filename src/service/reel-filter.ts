import type { ReelCard } from '../ledger/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { findMaterialId } from './find-material-id.ts'
import { makeOfReel } from './reel-card.ts'
import type { ShelfView } from './shelf-view.ts'

/** Which reels are asked for; everything given must fit. */
export interface ReelFilter {
  /** Of the built-in table or of the shelf's own. */
  readonly material?: string
  /** Words of the colour's name. */
  readonly colour?: string
  /** Words of maker and name. */
  readonly make?: string
  /** Words of where it stands. */
  readonly place?: string
}

const folded = (text: string): string => text.normalize('NFC').toLowerCase()

/** Whether every word typed stands in the text, in any case. */
const hasWords = (text: string, typed: string): boolean =>
  folded(typed)
    .split(/\s+/)
    .every((word) => folded(text).includes(word))

/**
 * Whether a reel fits.
 *
 * @returns refusal `material_unknown` for a material that neither table has
 */
export const reelFilter = (
  { rows }: Pick<ShelfView, 'rows'>,
  { material, colour, make, place }: ReelFilter,
): Outcome<(card: ReelCard) => boolean> => {
  const wanted = material === undefined ? undefined : findMaterialId(rows, material)
  if (wanted?.ok === false) return wanted
  return accept(
    (card) =>
      (wanted === undefined || card.make?.material === wanted.value) &&
      (make === undefined || hasWords(makeOfReel(card), make)) &&
      (colour === undefined || hasWords(card.colour?.name ?? '', colour)) &&
      (place === undefined || hasWords(card.place ?? '', place)),
  )
}
