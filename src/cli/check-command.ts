import type { CheckText } from './check-text.ts'
import { usageFault } from './fault.ts'
import { judged, parseConfidence, toolsOf } from './judged.ts'
import { parsePrinter } from './parse-printer.ts'
import { plainReelText, reelsOfTools } from './reels-of-tools.ts'
import { run } from './run.ts'
import { whatIsDrawn } from './what-is-drawn.ts'
import { whichCheck } from './which-check.ts'

/** `reelreckon check`: will this reel finish this print? */
export const checkCommand = (file: string | undefined, typed: CheckText): Promise<void> =>
  run(typed.json === true, async (terminal) => {
    const which = whichCheck(typed)
    if (which === 'shelf') {
      const { checkOverShelf } = await import('./check-over-shelf.ts')
      return checkOverShelf(terminal, file, typed)
    }
    noChoiceAmong(typed)
    if (which === 'named') {
      const { checkNamedReels } = await import('./check-named-reels.ts')
      return checkNamedReels(terminal, file, typed)
    }
    if (typed.data !== undefined || typed.ledger !== undefined) throw needless(typed)
    const confidence = parseConfidence(typed.confidence)
    const told = parsePrinter(typed)
    const plain = plainReelText(typed)
    const drawn = await whatIsDrawn(file, typed)
    const reels = reelsOfTools(toolsOf(drawn), plain, typed.tool ?? [])
    return judged(terminal, typed, drawn, reels, told, confidence)
  })

/** Reels are chosen among only where none is told. */
const noChoiceAmong = (typed: CheckText): void => {
  for (const option of ['colour', 'make', 'place', 'all'] as const) {
    if (typed[option] === undefined) continue
    throw usageFault(
      'needs_the_shelf',
      `--${option} chooses among the reels of the ledger, and a reel is told already. Leave one of them out.`,
      `--${option}`,
    )
  }
}

const needless = ({ data }: CheckText): Error => {
  const option = data === undefined ? '--ledger' : '--data'
  return usageFault(
    'needs_the_shelf',
    `${option} says where the ledger is, and nothing here asks it: name a reel of it with --reel or a printer with --printer, or tell nothing of a reel to ask for all of them.`,
    option,
  )
}
