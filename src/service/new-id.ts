import { idLength, makeId } from '../contract/index.ts'
import type { HandedIn } from './handed-in.ts'

/** An id for a new fact; chance keeps it apart from all others, as there are 31⁸ of them. */
export const newFactId = ({ randomByte }: HandedIn): string => makeId(idLength.fact, randomByte)

/**
 * An id for a new reel or catalogue row. There are under a million of them, so those taken are
 * passed over.
 */
export const newRowId = (
  { randomByte }: Pick<HandedIn, 'randomByte'>,
  isTaken: (id: string) => boolean,
): string => {
  let id = makeId(idLength.row, randomByte)
  while (isTaken(id)) id = makeId(idLength.row, randomByte)
  return id
}
