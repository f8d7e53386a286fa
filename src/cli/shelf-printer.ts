import type { PrinterRowJson } from '../contract/index.ts'
import type { Assumption, PrintTold } from '../estimate/index.ts'
import { motionOfPrinter } from '../ledger/index.ts'
import { type FirmwareFamilyId, firmwareFamilies, type MotionOptions } from '../print/index.ts'
import {
  findRow,
  printerThatTakesMost,
  printerTold,
  printToldOf,
  rowBesideTold,
  rowsOf,
  type ShelfView,
  type ToldOfPrinter,
} from '../service/index.ts'
import type { Printer } from '../verdict/index.ts'
import type { CheckText } from './check-text.ts'
import { likeliest } from './likeliest.ts'
import { parsePrinter } from './parse-printer.ts'
import { taken } from './taken.ts'
import type { Drawn } from './what-is-drawn.ts'

/** The printer of a check over the shelf; of several in use none, unless one is named. */
export interface ShelfPrinterTold {
  /** Of the printer whose prints teach what it feeds; absent where none is in question. */
  readonly id?: string
  readonly name?: string
  /** Nobody named it: of those in use it is the one that would take most. */
  readonly standsIn?: boolean
  /** For its tail, and for all of it where there is no `id`. */
  readonly told: Printer
  /** What was typed of its next print, where there is an `id`: it goes before what was learnt. */
  readonly printTold?: PrintTold
  /** What stands in, besides what the belief of a reel says itself. */
  readonly assumed: readonly Assumption[]
  /** The firmware that the shelf has for it. */
  readonly firmware?: FirmwareFamilyId
  /** What the shelf has of its motion. */
  readonly motion: MotionOptions
}

/**
 * The printer that is named, or the only one in use. What is typed of it goes before what the shelf
 * has learnt.
 *
 * @throws Fault of wrong usage
 */
export const shelfPrinter = (view: Pick<ShelfView, 'rows'>, typed: CheckText): ShelfPrinterTold => {
  const plain = parsePrinter(typed)
  const inUse = rowsOf(view.rows, 'printer').filter(({ retired }) => retired !== true)
  const row =
    typed.printer === undefined
      ? inUse.length === 1
        ? inUse[0]
        : undefined
      : taken(findRow(view.rows, 'printer', typed.printer), '--printer')
  if (row === undefined) {
    const { printer, assumed } = printerTold(plain)
    return { told: printer, assumed, motion: {} }
  }
  const firmware = firmwareFamilies.find((family) => family.id === row.firmware)?.id
  return {
    ...asTyped(row, plain),
    ...(firmware !== undefined && { firmware }),
    motion: motionOfPrinter(row),
  }
}

/**
 * The printer that prints are reckoned for: where none is named and several are in use, for each print the
 * one that would take most of it. How such a print moves, and how long it takes, is that of none.
 *
 * @param diameter_mm - nominal, of the reels in question, where it is known
 * @throws Fault of wrong usage
 */
export const printerOfDraw = (
  view: ShelfView,
  typed: CheckText,
  diameter_mm?: number,
): ((tools: Drawn['tools']) => ShelfPrinterTold) => {
  const printer = shelfPrinter(view, typed)
  if (printer.id !== undefined) return () => printer
  const plain = parsePrinter(typed)
  const printTold = printToldOf(plain)
  return (tools) => {
    const row = printerThatTakesMost(view, {
      draws_mm: tools.map(({ draw }) => likeliest(draw).peak_mm),
      ...(diameter_mm !== undefined && { diameter_mm }),
      ...(printTold && { printTold }),
    })
    return row === undefined ? printer : { ...asTyped(row, plain), standsIn: true, motion: {} }
  }
}

const asTyped = (row: PrinterRowJson, plain: ToldOfPrinter): Omit<ShelfPrinterTold, 'motion'> => ({
  id: row.id,
  name: row.name,
  ...rowBesideTold(row, plain),
})
