import {
  believeNow,
  diameterOfReel,
  findReel,
  type PrinterTold,
  paceOfPrinter,
  printerAssumed,
  printerLearnt,
  type ShelfView,
  type WeighingTold,
} from '../service/index.ts'
import { type AskedShelf, askedShelf } from './asked-shelf.ts'
import type { CheckText } from './check-text.ts'
import type { Checker } from './checker.ts'
import { withContradiction } from './contradiction-sentence.ts'
import { usageFault } from './fault.ts'
import { judgeReels, parseConfidence, toolsOf } from './judged.ts'
import { answered } from './open-ledger.ts'
import type { ReelOptionName } from './option-table.ts'
import { parseReel, type ReelText } from './parse-reel.ts'
import { parseTool } from './parse-tool.ts'
import { type FindOnShelf, plainReelText, reelsOfTools } from './reels-of-tools.ts'
import { printerOfDraw, type ShelfPrinterTold, shelfPrinter } from './shelf-printer.ts'
import { stdinOnce } from './stdin-once.ts'
import { taken } from './taken.ts'
import { startTold } from './times-of.ts'

/** `reelreckon check --reel`: with all that the ledger knows of the reel and of the printer. */
export const namedChecker = async (
  files: readonly string[],
  typed: CheckText,
): Promise<Checker> => {
  stdinOnce(files, typed.ledger)
  parseConfidence(typed.confidence)
  const shelf = await askedShelf(typed)
  const { motion, firmware: usual } = shelfPrinter(shelf.view, typed)
  const { firmware = usual } = typed
  return {
    typed: { ...typed, ...(firmware !== undefined && files.length > 0 && { firmware }) },
    motion,
    judge: judgeByNamed(shelf, typed),
  }
}

/** Judges prints by reels that are named, over a shelf as it stands. @throws Fault of wrong usage */
export const judgeByNamed = (
  shelf: Pick<AskedShelf, 'view' | 'now'>,
  typed: CheckText,
): Checker['judge'] => {
  const { view } = shelf
  const confidence = parseConfidence(typed.confidence)
  const plain = plainReelText(typed)
  const named = plain.get('reel') ?? firstNamed(typed.tool ?? [])
  const first = findReel(view, named ?? '', { byWords: true })
  const card = first.ok ? view.cards.get(first.value) : undefined
  const printerOf = printerOfDraw(view, typed, card && diameterOfReel(card))
  // What a stated mass was computed with is not told of the reel.
  const ofReel =
    typed.mass !== undefined && plain.has('reel')
      ? new Map([...plain].filter(([name]) => !ofStatedMass.has(name)))
      : plain
  const timing = {
    pace: paceOfPrinter(view, shelfPrinter(view, typed).id),
    ...startTold(typed.start),
  }
  return (drawn) => {
    const printer = printerOf(drawn.tools)
    const reels = reelsOfTools(toolsOf(drawn), ofReel, typed.tool ?? [], onShelf(shelf, printer))
    const told = printerFor(view, printer)
    return {
      kind: 'reels',
      ...judgeReels(drawn, reels, told, confidence, timing),
      ofShelf: printer,
    }
  }
}

/** The reel of the shelf that the tools name first. */
const firstNamed = (specs: readonly string[]): string | undefined =>
  specs
    .map(parseTool)
    .map(({ text }) => text.get('reel'))
    .find((reel) => reel !== undefined)

const ofStatedMass: ReadonlySet<ReelOptionName> = new Set(['material', 'density', 'diameter'])

/** What may be told of a reel that the ledger knows: that it stands on a scale now. */
const besideReel: ReadonlySet<ReelOptionName> = new Set(['reel', 'gross', 'extra', 'scale'])

const onShelf =
  (
    { view, now }: Pick<AskedShelf, 'view' | 'now'>,
    { id: printer, printTold }: ShelfPrinterTold,
  ): FindOnShelf =>
  (text, nameOf) => {
    const reel = taken(findReel(view, text.get('reel') ?? '', { byWords: true }), nameOf('reel'))
    for (const name of text.keys()) {
      if (besideReel.has(name)) continue
      throw usageFault(
        'known_by_ledger',
        `${nameOf(name)}: what is known of reel ${reel} stands in the ledger. Write it down there, with reelreckon measure or reelreckon weigh, or leave ${nameOf('reel')} out and tell all of it here.`,
        nameOf(name),
      )
    }
    const weighing = toldNow(text, nameOf)
    const { belief: known, ...found } = answered(
      believeNow(view, {
        reel,
        now,
        ...(weighing && { weighing }),
        ...(printer !== undefined && { printer }),
        ...(printTold && { printTold }),
      }),
    )
    const notices = withContradiction(known.notices, found.contradicted)
    const belief = { ...known, notices }
    return { belief, onShelf: { ...found, now } }
  }

/** What was typed of a reel on a scale now. */
const toldNow = (
  text: ReelText,
  nameOf: (name: ReelOptionName) => string,
): WeighingTold | undefined => {
  const typed = new Map([...text].filter(([name]) => name === 'gross' || name === 'extra'))
  const { gross } = parseReel(typed, nameOf)
  const scale = text.get('scale')
  if (gross !== undefined) return { ...gross, ...(scale !== undefined && { scale }) }
  if (scale === undefined) return undefined
  throw usageFault(
    'scale_without_gross',
    `${nameOf('scale')} says what the reel stands on: give ${nameOf('gross')} with it.`,
    nameOf('scale'),
  )
}

/** For reels told here and now; a reel of the shelf knows its next print on the printer itself. */
const printerFor = (
  { estimate }: ShelfView,
  { id, told, printTold, assumed }: ShelfPrinterTold,
): PrinterTold => ({
  printer: printerLearnt(estimate, id, told, printTold),
  assumed,
  assumedOfTold: printerAssumed(estimate, id, printTold),
})
