import type { CheckText } from './check-text.ts'
import { usageFault } from './fault.ts'
import { plainReelText } from './reels-of-tools.ts'

/**
 * What is checked: a reel told of here and now; reels that the ledger knows, or a printer of it; or
 * the whole shelf, where nothing is told of a reel.
 */
export type WhichCheck = 'told' | 'named' | 'shelf'

/** Options that choose among reels, and those by which a stated mass was computed. */
const aboutNoReel: ReadonlySet<string> = new Set(['material', 'diameter'])
const ofStatedMass: ReadonlySet<string> = new Set(['density'])

export const whichCheck = (typed: CheckText): WhichCheck => {
  const { tool: tools = [], mass } = typed
  const plain = [...plainReelText(typed).keys()]
  if (plain.includes('reel') || tools.some((each) => /\breel\s*=/.test(each))) return 'named'
  const told = plain.filter(
    (name) => !aboutNoReel.has(name) && !(mass !== undefined && ofStatedMass.has(name)),
  )
  if (told.length === 0 && tools.length === 0) return 'shelf'
  return typed.printer === undefined ? 'told' : 'named'
}

/** Reels are chosen among only where none is told. @throws Fault */
export const noChoiceAmong = (typed: CheckText): void => {
  for (const option of ['colour', 'make', 'place', 'all'] as const) {
    if (typed[option] === undefined) continue
    throw usageFault(
      'needs_the_shelf',
      `--${option} chooses among the reels of the ledger, and a reel is told already. Leave one of them out.`,
      `--${option}`,
    )
  }
}
