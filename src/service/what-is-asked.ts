import type { CheckedPrintJson, PrinterRowJson, PrintRowJson } from '../contract/index.ts'
import { readingOfRow } from '../ledger/index.ts'
import type { Layers, PrintTime } from '../print/index.ts'
import { accept, formatCount, type Outcome, refuse } from '../units/index.ts'
import { drawAfterLayer, normalised, type Printer, unknownPrinter } from '../verdict/index.ts'
import { findRow, rowsOf } from './find-row.ts'
import { printerOfRow, printerThatTakesMost } from './printer-that-takes-most.ts'
import type { ShelfView } from './shelf-view.ts'
import { type ToolDrawn, toolsDrawn } from './tools-drawn.ts'

/** A print that was kept, or the length that stands in for one, and where it is to be printed. */
export interface PrintAsked {
  readonly print?: PrintRowJson
  readonly length_mm?: number
  /** Name or id; unless given the only one in use, and of several the one that would take most. */
  readonly printer?: string
  /** Firmware family; that of the printer unless given. */
  readonly firmware?: string
  /** The file may not be the whole print, so nobody can say that a reel is enough for it. */
  readonly cutShort?: boolean
  /** Only what comes after this layer, 1-based: a reel takes over there. */
  readonly afterLayer?: number
}

/** The printer that an answer is reckoned for; without id where the shelf has none. */
export interface PrinterJudged {
  readonly id?: string
  readonly name?: string
  /** Nobody named one: of those in use it is the one that would take most. */
  readonly standsIn?: boolean
}

/** What is asked, as the verdict takes it. */
export interface AskedDraw {
  readonly tools: readonly ToolDrawn[]
  readonly layers?: Layers
  /** Where it was kept with the print. */
  readonly time?: PrintTime
  readonly print: CheckedPrintJson | null
  readonly printer: PrinterJudged
  /** Its tail, and all of it where nothing was learnt. */
  readonly told: Printer
}

/**
 * What a check is about.
 *
 * @param diameter_mm - nominal, of the reels in question, where it is known
 * @returns `nothing_to_check`, `layer_needs_print`, `layer_out_of_range`, and as `findRow` for the printer
 */
export const whatIsAsked = (
  view: Pick<ShelfView, 'rows' | 'cards' | 'standing' | 'estimate'>,
  { print, length_mm, printer: named, firmware, afterLayer = 0 }: PrintAsked,
  diameter_mm?: number,
): Outcome<AskedDraw> => {
  const inUse = rowsOf(view.rows, 'printer').filter(({ retired }) => retired !== true)
  const only = inUse.length === 1 ? inUse[0] : undefined
  const found = named === undefined ? accept(only) : findRow(view.rows, 'printer', named)
  if (!found.ok) return found
  const row = found.value
  const onPrinter = (tools: AskedDraw['tools']): Pick<AskedDraw, 'tools' | 'printer' | 'told'> => {
    if (row !== undefined) return { tools, printer: judgedOn(row), told: printerOfRow(row) }
    const draws_mm = tools.map(({ draw }) => normalised(draw)[0]!.peak_mm)
    const most = printerThatTakesMost(view, {
      draws_mm,
      ...(diameter_mm !== undefined && { diameter_mm }),
    })
    if (most === undefined) return { tools, printer: {}, told: unknownPrinter }
    return { tools, printer: { ...judgedOn(most), standsIn: true }, told: printerOfRow(most) }
  }
  if (print === undefined) {
    if (length_mm === undefined || !(length_mm > 0)) {
      return refuse({
        code: 'nothing_to_check',
        message: 'Say what is to be printed: a print that was kept, or a length above 0.',
      })
    }
    if (afterLayer > 0) {
      return refuse({
        code: 'layer_needs_print',
        message: 'A length has no layers: of what is left of it, give the length.',
      })
    }
    const tools = [{ tool: 0, draw: [{ weight: 1, peak_mm: length_mm }] }]
    return accept({ ...onPrinter(tools), print: null })
  }
  const { families, layers, time } = readingOfRow(print)
  if (afterLayer > layers.count) {
    return refuse({
      code: 'layer_out_of_range',
      message: `The print has ${formatCount(layers.count, 'layer')}: nothing comes after layer ${afterLayer}.`,
      expected: `1 to ${layers.count}`,
      received: `${afterLayer}`,
    })
  }
  const drawn = toolsDrawn({ families }, firmware ?? row?.firmware).map(({ tool, draw }) => ({
    tool,
    draw: drawAfterLayer(draw, afterLayer),
  }))
  const left = drawn.filter(({ draw }) => draw.some(({ peak_mm }) => peak_mm > 0))
  return accept({
    // A tool that has done its part needs no reel for the rest.
    ...onPrinter(left.length === 0 ? drawn.slice(0, 1) : left),
    layers,
    ...(time && { time }),
    print: checkedPrintOf(print),
  })
}

const judgedOn = ({ id, name }: PrinterRowJson): PrinterJudged => ({ id, name })

const checkedPrintOf = ({ id, file, bytes, layers }: PrintRowJson): CheckedPrintJson => ({
  file,
  sha256: id.slice(0, 64),
  bytes,
  container: null,
  member: id.length > 64 ? id.slice(65) : null,
  lines: null,
  layers: layers.count,
  top_mm: layers.height_mm.reduce<number | null>(
    (top, height) => Math.max(top ?? height, height),
    null,
  ),
  stretch: null,
  stretches: 1,
})
