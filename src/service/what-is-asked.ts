import type { PrinterRowJson } from '../contract/index.ts'
import { usualChange } from '../match/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { normalised } from '../verdict/index.ts'
import { findRow, rowsOf } from './find-row.ts'
import { printerThatTakesMost } from './printer-that-takes-most.ts'
import {
  pathHolds,
  printerTold,
  printToldOf,
  type RowBesideTold,
  rowBesideTold,
  type ToldOfPrinter,
} from './printer-told.ts'
import type { ShelfView } from './shelf-view.ts'
import { type DrawAsked, type WhatIsDrawn, whatIsDrawn } from './what-is-drawn.ts'

/** What is to be printed, and where. */
export interface PrintAsked extends DrawAsked {
  /** Name or id; unless given the only one in use, and of several the one that would take most. */
  readonly printer?: string
  /** What is told of the printer goes before what the shelf has. */
  readonly told?: ToldOfPrinter
  /** The file may not be the whole print, so nobody can say that a reel is enough for it. */
  readonly cutShort?: boolean
}

/** The printer that an answer is reckoned for; without id where the shelf has none. */
export interface PrinterJudged {
  readonly id?: string
  readonly name?: string
  /** Nobody named one: of those in use it is the one that would take most. */
  readonly standsIn?: boolean
}

/** What is asked, as the verdict takes it. */
export interface AskedDraw extends WhatIsDrawn, RowBesideTold {
  readonly printer: PrinterJudged
}

/**
 * What a check is about.
 *
 * @param diameter_mm - nominal, of the reels in question, where it is known
 * @returns refusals as `whatIsDrawn`, `pathHolds`, and as `findRow` for the printer
 */
export const whatIsAsked = (
  view: Pick<ShelfView, 'rows' | 'cards' | 'standing' | 'estimate'>,
  { printer: named, told: typed = {}, ...asked }: PrintAsked,
  diameter_mm?: number,
): Outcome<AskedDraw> => {
  const holds = pathHolds(typed)
  if (!holds.ok) return holds
  const inUse = rowsOf(view.rows, 'printer').filter(({ retired }) => retired !== true)
  const only = inUse.length === 1 ? inUse[0] : undefined
  const found = named === undefined ? accept(only) : findRow(view.rows, 'printer', named)
  if (!found.ok) return found
  const row = found.value
  const drawn = whatIsDrawn(asked, row?.firmware)
  if (!drawn.ok) return drawn
  const takesOver = asked.afterLayer !== undefined && asked.afterLayer > 0
  const toldOn = (on?: PrinterRowJson): ToldOfPrinter =>
    takesOver ? asTakenOver(typed, on) : typed
  if (row !== undefined) {
    return accept({ ...drawn.value, printer: judgedOn(row), ...rowBesideTold(row, toldOn(row)) })
  }
  const printTold = printToldOf(typed)
  const most = printerThatTakesMost(view, {
    draws_mm: drawn.value.tools.map(({ draw }) => normalised(draw)[0]!.peak_mm),
    ...(diameter_mm !== undefined && { diameter_mm }),
    ...(printTold && { printTold }),
  })
  if (most === undefined) {
    const { printer: any, assumed } = printerTold(toldOn())
    return accept({ ...drawn.value, printer: {}, told: any, assumed })
  }
  const printer = { ...judgedOn(most), standsIn: true }
  return accept({ ...drawn.value, printer, ...rowBesideTold(most, toldOn(most)) })
}

/** What a change takes of the reel that comes in stands in the place of what a start takes. */
const asTakenOver = (told: ToldOfPrinter, row: PrinterRowJson | undefined): ToldOfPrinter => ({
  start_allowance_mm: row?.change_mm ?? { value: usualChange.value, u: usualChange.u },
  ...told,
})

const judgedOn = ({ id, name }: PrinterRowJson): PrinterJudged => ({ id, name })
