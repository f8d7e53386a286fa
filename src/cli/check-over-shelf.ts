import type { ReelCard } from '../ledger/index.ts'
import {
  checkShelf,
  hasDiameter,
  isInUse,
  type PrintTimes,
  paceOfPrinter,
  type ReelFilter,
  reelFilter,
  rowsOf,
  type ShelfAnswer,
  shelfCheckToJson,
  usualDiameterOf,
} from '../service/index.ts'
import { parseLength } from '../units/index.ts'
import { type AskedShelf, askedShelf } from './asked-shelf.ts'
import type { CheckText } from './check-text.ts'
import { usageFault } from './fault.ts'
import { exitOf, parseConfidence } from './judged.ts'
import { parsePrinter } from './parse-printer.ts'
import { taken } from './parse-reel.ts'
import { printToJson } from './print-to-json.ts'
import type { Result } from './run.ts'
import { shelfCheckReport } from './shelf-check-report.ts'
import { type ShelfPrinterTold, shelfPrinter } from './shelf-printer.ts'
import { stdinOnce } from './stdin-once.ts'
import type { Terminal } from './terminal.ts'
import { timesOf } from './times-of.ts'
import { type Drawn, isCutShort, whatIsDrawn } from './what-is-drawn.ts'

/** The shelf's answer with what it is about. */
export interface ShelfFound extends ShelfAnswer {
  readonly drawn: Drawn
  /** Where a file was read. */
  readonly times?: PrintTimes
  readonly printer: ShelfPrinterTold
  readonly confidence: number
  /** Nominal diameter of the reels judged, mm. */
  readonly diameter_mm: number
  /** Reels that would fit but for their diameter. */
  readonly otherDiameter: number
  /** Reels in use on the shelf. */
  readonly onShelf: number
  /** What was asked for, as typed. */
  readonly filter: ReelFilter
}

const usualConfidence = 0.95

/** `reelreckon check` with nothing told of a reel: which reels of the shelf could do it. */
export const checkOverShelf = async (
  terminal: Terminal,
  file: string | undefined,
  typed: CheckText,
): Promise<Result> => {
  stdinOnce(file, typed.ledger)
  const confidence = parseConfidence(typed.confidence) ?? usualConfidence
  // What was typed wrong is told before the shelf is asked.
  parsePrinter(typed)
  const shelf = await askedShelf(typed)
  const { view } = shelf
  const onShelf = [...view.cards.values()].filter(isInUse).length
  const printer = shelfPrinter(view, typed)
  const { firmware = printer.firmware } = typed
  const drawn = await whatIsDrawn(
    file,
    {
      ...typed,
      ...(firmware !== undefined && file !== undefined && { firmware }),
    },
    printer.motion,
  )
  if (onShelf === 0) throw welcome(shelf)
  const { material, colour, make, place } = typed
  const filter: ReelFilter = {
    ...(material !== undefined && { material }),
    ...(colour !== undefined && { colour }),
    ...(make !== undefined && { make }),
    ...(place !== undefined && { place }),
  }
  const fits = taken(reelFilter(view, filter), '--material')
  const diameter_mm =
    typed.diameter === undefined
      ? usualDiameterOf(view, printer.id)
      : taken(parseLength(typed.diameter), '--diameter').value
  const isThis = (card: ReelCard): boolean => hasDiameter(card, diameter_mm)
  const wanted = [...view.cards.values()].filter((card) => isInUse(card) && fits(card))
  const scales = rowsOf(view.rows, 'scale').filter(({ retired }) => retired !== true)
  const answer = checkShelf(view, {
    tools: drawn.tools,
    told: printer.told,
    ...(printer.id !== undefined && { printer: printer.id }),
    ...(scales.length === 1 && { scale: scales[0]!.id }),
    confidence,
    fits: (card) => fits(card) && isThis(card),
  })
  const times = timesOf(drawn, paceOfPrinter(view, printer.id), typed.start, Date.now())
  const found: ShelfFound = {
    ...answer,
    // Of a file cut short nobody can say that a reel is enough for it.
    verdict: answer.verdict === 'enough' && isCutShort(drawn) ? 'close' : answer.verdict,
    drawn,
    ...(times && { times }),
    printer,
    confidence,
    diameter_mm,
    otherDiameter: wanted.filter((card) => !isThis(card)).length,
    onShelf,
    filter,
  }
  const all = typed.all === true
  const text =
    typed.json === true
      ? `${JSON.stringify(shelfCheckToJson({ ...found, print: printToJson(drawn), findings: drawn.findings }, { all }), null, 2)}\n`
      : shelfCheckReport(terminal, found, all)
  return { text, exit: exitOf[found.verdict] }
}

const welcome = ({ found }: AskedShelf): Error =>
  usageFault(
    'nothing_known',
    `Nothing is told of a reel, and ${found ? 'the shelf has none that is in use' : 'there is no ledger yet'}. Either tell what you know of the reel here:\n--gross 422g, with --tare, --label or --material where you know them\nor put your reels on the shelf once, and ask for all of them after that:\nreelreckon reel add --help`,
  )
