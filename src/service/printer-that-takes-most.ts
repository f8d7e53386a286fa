import type { PrinterRowJson } from '../contract/index.ts'
import { type PrintTold, printerPosterior } from '../estimate/index.ts'
import { measured, millimetres } from '../units/index.ts'
import { type Printer, unknownPrinter } from '../verdict/index.ts'
import { rowsOf } from './find-row.ts'
import { printerLearnt } from './printer-learnt.ts'
import type { ShelfView } from './shelf-view.ts'
import { diameterFedLast, isSameDiameter } from './usual-diameter-of.ts'

/** What is to be printed where nobody says on which printer. */
export interface TakenByAny {
  /** What the file asks of each tool, mm: the most of them counts. */
  readonly draws_mm: readonly number[]
  /** Nominal; printers that were fed another one last do not come into question. Any unless given. */
  readonly diameter_mm?: number
  /** Typed of the print, whichever printer makes it. */
  readonly printTold?: PrintTold
}

type Shelf = Pick<ShelfView, 'rows' | 'cards' | 'standing' | 'estimate'>

/**
 * Of several printers in use the one that would take most of a reel for a print, its doubt taken twice: a reel
 * that is enough there is hardly ever less on the printer that somebody had in mind. What a reel and a printer were
 * weighed together for is not in it.
 *
 * @returns undefined where fewer than two are in use
 */
export const printerThatTakesMost = (
  view: Shelf,
  { draws_mm, diameter_mm, printTold }: TakenByAny,
): PrinterRowJson | undefined => {
  const inUse = rowsOf(view.rows, 'printer').filter(({ retired }) => retired !== true)
  if (inUse.length < 2) return undefined
  const suited = inUse.filter(({ id }) => {
    const fed = diameterFedLast(view, id)
    return fed === undefined || diameter_mm === undefined || isSameDiameter(fed, diameter_mm)
  })
  const draw_mm = Math.max(0, ...draws_mm)
  const takes = (row: PrinterRowJson): number => mostTaken(view, row, draw_mm, printTold)
  return (suited.length === 0 ? inUse : suited).reduce((most, row) =>
    takes(row) > takes(most) ? row : most,
  )
}

/** The tail of a printer as its row has it, and all else as of one that nobody measured. */
const printerOfRow = ({ tail_mm: tail }: Pick<PrinterRowJson, 'tail_mm'>): Printer =>
  tail === undefined
    ? unknownPrinter
    : { ...unknownPrinter, tail_mm: measured(millimetres(tail.value), tail.u) }

const mostTaken = (
  { estimate }: Shelf,
  row: PrinterRowJson,
  draw_mm: number,
  printTold: PrintTold | undefined,
): number => {
  const { feedFactor, startAllowance_mm, tail_mm } = printerLearnt(
    estimate,
    row.id,
    printerOfRow(row),
    printTold,
  )
  // What was learnt of the two leans on the same prints; what is typed leans on nothing.
  const isLearnt = printTold === undefined && estimate.book.printerAt.has(row.id)
  const together = isLearnt ? 2 * draw_mm * printerPosterior(estimate, row.id).covariance : 0
  const variance =
    (draw_mm * feedFactor.u) ** 2 + startAllowance_mm.u ** 2 + tail_mm.u ** 2 + together
  return (
    draw_mm * feedFactor.value +
    startAllowance_mm.value +
    tail_mm.value +
    2 * Math.sqrt(Math.max(0, variance))
  )
}
