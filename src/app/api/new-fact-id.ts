import { idLength, makeId } from '../../contract/index.ts'

/**
 * An id for a fact that is about to be posted. The same one posted again is counted once: make it
 * when the form opens, not when it is sent.
 */
export const newFactId = (): string =>
  makeId(idLength.fact, () => crypto.getRandomValues(new Uint8Array(1))[0] ?? 0)
