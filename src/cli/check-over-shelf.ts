import type { ShelfCheckJson } from '../contract/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import {
  checkShelf,
  hasDiameter,
  isInUse,
  materialsToTake,
  type PrintTimes,
  paceOfPrinter,
  type ReelFilter,
  reelFilter,
  rowsOf,
  type ShelfAnswer,
  shelfCheckToJson,
  type ToldReels,
  type TwoReels,
  twoReelsBeside,
  usualDiameterOf,
} from '../service/index.ts'
import { parseLength } from '../units/index.ts'
import { type AskedShelf, askedShelf } from './asked-shelf.ts'
import type { CheckText } from './check-text.ts'
import type { Checker } from './checker.ts'
import { usageFault } from './fault.ts'
import { parseConfidence } from './judged.ts'
import { parsePrinter } from './parse-printer.ts'
import { printToJson } from './print-to-json.ts'
import { printerOfDraw, type ShelfPrinterTold, shelfPrinter } from './shelf-printer.ts'
import { stdinOnce } from './stdin-once.ts'
import { taken } from './taken.ts'
import { startTold, timesOf } from './times-of.ts'
import { type Drawn, doubtOfFile } from './what-is-drawn.ts'

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
  readonly materials: ShelfCheckJson['materials']
  /** Reels in use on the shelf. */
  readonly onShelf: number
  /** Two reels that do it together, where it has one tool and no reel is enough. */
  readonly two: TwoReels | null
  /** What was asked for, as typed. */
  readonly filter: ReelFilter
}

const usualConfidence = 0.95

/** `reelreckon check` with nothing told of a reel: which reels of the shelf could do it. */
export const shelfChecker = async (
  files: readonly string[],
  typed: CheckText,
): Promise<Checker> => {
  stdinOnce(files, typed.ledger)
  // What was typed wrong is told before the shelf is asked.
  parseConfidence(typed.confidence)
  parsePrinter(typed)
  const shelf = await askedShelf(typed)
  const { motion, firmware: usual } = shelfPrinter(shelf.view, typed)
  const { firmware = usual } = typed
  let judge: ((drawn: Drawn) => ShelfFound) | undefined
  return {
    typed: { ...typed, ...(firmware !== undefined && files.length > 0 && { firmware }) },
    motion,
    judge: (drawn) => {
      judge ??= judgeOverShelf(shelf, typed)
      return { kind: 'shelf', found: judge(drawn) }
    },
  }
}

/**
 * Judges prints over a shelf as it stands.
 *
 * @throws Fault of wrong usage, also where no reel is in use
 */
export const judgeOverShelf = (
  { view, found }: Pick<AskedShelf, 'view' | 'found'>,
  typed: CheckText,
): ((drawn: Drawn) => ShelfFound) => {
  const confidence = parseConfidence(typed.confidence) ?? usualConfidence
  const onShelf = [...view.cards.values()].filter(isInUse).length
  if (onShelf === 0) throw welcome(found)
  const named = shelfPrinter(view, typed)
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
      ? usualDiameterOf(view, named.id)
      : taken(parseLength(typed.diameter), '--diameter').value
  const isThis = (card: ReelCard): boolean => hasDiameter(card, diameter_mm)
  // One function for all prints: what it chooses is made ready once.
  const mayTake = (card: ReelCard): boolean => fits(card) && isThis(card)
  const wanted = [...view.cards.values()].filter((card) => isInUse(card) && fits(card))
  const scales = rowsOf(view.rows, 'scale').filter(({ retired }) => retired !== true)
  const otherDiameter = wanted.filter((card) => !isThis(card)).length
  const materials = materialsToTake(view, filter, diameter_mm)
  const timing = { pace: paceOfPrinter(view, named.id), ...startTold(typed.start) }
  const printerOf = printerOfDraw(view, typed, diameter_mm)
  return (drawn) => {
    const printer = printerOf(drawn.tools)
    const times = timesOf(drawn, timing)
    const isInDoubt = doubtOfFile(drawn) !== undefined
    const answer = checkShelf(view, {
      tools: drawn.tools,
      told: printer.told,
      ...(printer.id !== undefined && { printer: printer.id }),
      ...(printer.printTold && { printTold: printer.printTold }),
      ...(scales.length === 1 && { scale: scales[0]!.id }),
      confidence,
      inDoubt: isInDoubt,
      fits: mayTake,
    })
    return {
      ...answer,
      // Of a file cut short nobody can say that two reels are enough, either.
      two: twoReelsBeside(view, {
        answer,
        tools: drawn.tools,
        told: printer.told,
        confidence,
        ...(printer.id !== undefined && { printer: printer.id }),
        ...(printer.printTold && { printTold: printer.printTold }),
        ...(drawn.layers && !isInDoubt && { layers: drawn.layers }),
      }),
      drawn,
      ...(times && { times }),
      printer,
      confidence,
      diameter_mm,
      otherDiameter,
      materials,
      onShelf,
      filter,
    }
  }
}

/** The shelf's answer on the wire. */
export const shelfFoundToJson = (found: ShelfFound, told: ToldReels): ShelfCheckJson =>
  shelfCheckToJson(
    { ...found, print: printToJson(found.drawn), findings: found.drawn.findings },
    told,
  )

const welcome = (found: boolean): Error =>
  usageFault(
    'nothing_known',
    `Nothing is told of a reel, and ${found ? 'the shelf has none that is in use' : 'there is no ledger yet'}. Either tell what you know of the reel here:\n--gross 422g, with --tare, --label or --material where you know them\nor put your reels on the shelf once, and ask for all of them after that:\nreelreckon reel add --help`,
  )
