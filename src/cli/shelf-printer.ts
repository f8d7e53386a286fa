import type { Assumption, PrintTold } from '../estimate/index.ts'
import { motionOfPrinter } from '../ledger/index.ts'
import { type FirmwareFamilyId, firmwareFamilies, type MotionOptions } from '../print/index.ts'
import { findRow, rowsOf, type ShelfView } from '../service/index.ts'
import { measured, millimetres } from '../units/index.ts'
import type { Printer } from '../verdict/index.ts'
import type { CheckText } from './check-text.ts'
import { parsePrinter } from './parse-printer.ts'
import { taken } from './parse-reel.ts'

/** The printer of a check over the shelf. */
export interface ShelfPrinterTold {
  /** Of the printer whose prints teach what it feeds; absent where none is in question. */
  readonly id?: string
  readonly name?: string
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
  if (row === undefined) return { told: plain.printer, assumed: plain.assumed, motion: {} }
  const { id, name, tail_mm: tail } = row
  const knowsTail = typed.tail === undefined && tail !== undefined
  const told: Printer = knowsTail
    ? { ...plain.printer, tail_mm: measured(millimetres(tail.value), tail.u) }
    : plain.printer
  const { feedFactor, startAllowance_mm: startAllowance } = plain.printer
  const printTold: PrintTold = {
    ...(typed.feedFactor !== undefined && { feedFactor }),
    ...(typed.startAllowance !== undefined && { startAllowance }),
  }
  const firmware = firmwareFamilies.find((family) => family.id === row.firmware)?.id
  return {
    id,
    name,
    told,
    ...(Object.keys(printTold).length > 0 && { printTold }),
    // Of a printer of the shelf each belief says itself what nobody has learnt.
    assumed: plain.assumed.filter((each) => each.id === 'tail' && !knowsTail),
    ...(firmware !== undefined && { firmware }),
    motion: motionOfPrinter(row),
  }
}
