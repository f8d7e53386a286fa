import type { ShelfView } from './shelf-view.ts'

/** Why a reel of the shelf can not be printed from: it `is empty`, it `left the shelf`; else undefined. */
export const whyNotInUse = (
  { cards }: Pick<ShelfView, 'cards'>,
  reel: string,
): string | undefined => {
  const state = cards.get(reel)?.state
  if (state === 'empty') return 'is empty'
  return state === 'retired' ? 'left the shelf' : undefined
}
