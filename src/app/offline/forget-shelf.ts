import { forgetBut } from '../look/kept.ts'
import { browserStore } from './browser-store.ts'

let times = 0

/** How often the shelf was forgotten: an answer asked for before is not kept after. */
export const timesForgotten = (): number => times

/** How the sheets look, which ledger it was, and what a person told here that the ledger lacks. */
const stays = ['ground', 'unit', 'ledger', 'running']

/**
 * Forgets what this browser keeps of the shelf. Weighings that wait stay until they are sent or left
 * out, and prints that were started until it is told what became of them.
 */
export async function forgetShelf(): Promise<void> {
  times++
  forgetBut(stays)
  await (await browserStore()).clear('answers')
}
