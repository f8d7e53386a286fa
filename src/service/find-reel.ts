import { idLength, readId } from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { nameOfReel } from './name-of-reel.ts'
import type { ShelfView } from './shelf-view.ts'

/** How freely a reel may be named. */
export interface ReelWanted {
  /** Words of its make and colour will do where they fit one reel only: for commands that only ask. */
  readonly byWords?: boolean
}

/**
 * The reel a person means: its id in either case, with blanks or without.
 *
 * @returns the id, or `reel_unknown`, `reel_ambiguous`, and as `readId`
 */
export const findReel = (
  { cards }: Pick<ShelfView, 'cards'>,
  typed: string,
  { byWords = false }: ReelWanted = {},
): Outcome<string> => {
  const id = readId(typed, idLength.row)
  if (id.ok && cards.has(id.value)) return id
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean)
  const fits = (text: string): boolean => words.every((word) => text.includes(word))
  const found = [...cards.values()].filter(
    (card) => card.state !== 'retired' && words.length > 0 && fits(nameOfReel(card).toLowerCase()),
  )
  const candidates = found
    .slice(0, 12)
    .map((card) => `\n  ${card.id}  ${nameOfReel(card)}`)
    .join('')
  const [one, ...more] = found
  if (byWords && one !== undefined && more.length === 0) return accept(one.id)
  if (one !== undefined) {
    return refuse({
      code: byWords ? 'reel_ambiguous' : 'reel_by_words',
      message: byWords
        ? `"${typed}" may be any of these; give the id:${candidates}`
        : `What is recorded needs the reel's id, not "${typed}". It may be:${candidates}`,
      received: typed,
    })
  }
  if (!id.ok) return id
  return refuse({
    code: 'reel_unknown',
    message: `There is no reel ${id.value} on this shelf.`,
    received: typed,
  })
}
