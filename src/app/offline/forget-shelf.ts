import { forgetBut } from '../look/kept.ts'
import { browserStore } from './browser-store.ts'

let times = 0

/** How often the shelf was forgotten: an answer asked for before is not kept after. */
export const timesForgotten = (): number => times

/** How the sheets look, which ledger it was, and what a person told here that the ledger lacks. */
const stays = ['ground', 'unit', 'ledger', 'running', 'running-changes']

/**
 * Forgets what this browser keeps of the shelf. Weighings that wait stay until they are sent or left
 * out, and so do prints that were started, and what changed of them, out of touch.
 */
export async function forgetShelf(): Promise<void> {
  times++
  forgetBut(stays)
  await (await browserStore()).clear('answers')
}
