import { idLength, readId } from '../contract/index.ts'
import { parseMass } from '../units/index.ts'
import type { Talk } from './talk.ts'

/** What a person says to a surprising weighing. */
export type Settled =
  | { readonly kind: 'accept' }
  | { readonly kind: 'drop' }
  | { readonly kind: 'mass'; readonly typed: string }
  | { readonly kind: 'reel'; readonly id: string }

const question = '\n  accept, drop, or type the right figure (422g) or the id of the reel it was: '

/** Asks until the answer can be understood; no answer drops the weighing. */
export const settleSurprise = async (talk: Talk): Promise<Settled> => {
  // Each question waits for the answer to the one before.
  for (;;) {
    // oxlint-disable-next-line no-await-in-loop
    const typed = await talk.ask(question)
    const word = typed?.toLowerCase() ?? 'drop'
    if (word === 'accept' || word === 'a') return { kind: 'accept' }
    if (word === 'drop' || word === 'd' || word === '') return { kind: 'drop' }
    const figures = /^[\d.,\s]+$/.test(word)
    const id = readId(word, idLength.row)
    if (id.ok && !figures) return { kind: 'reel', id: id.value }
    const mass = parseMass(word)
    if (mass.ok) return { kind: 'mass', typed: word }
    talk.say(
      `  ${/\d\s*\p{L}*$/u.test(word) && /^\d/.test(word) ? mass.refusal.message : `"${word}" is neither. ${id.ok ? '' : id.refusal.message}`}\n`,
    )
  }
}
