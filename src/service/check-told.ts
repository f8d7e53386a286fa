import type { CheckJson, PrinterRowJson } from '../contract/index.ts'
import { type Pace, unknownPace } from '../estimate/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { believeTold, type ReelTold } from './believe-told.ts'
import { checkToJson } from './check-to-json.ts'
import { findRow } from './find-row.ts'
import { judgeReels, type ToolServed } from './judge-reels.ts'
import { paceOfPrinter } from './pace-of-printer.ts'
import { printerLearnt } from './printer-learnt.ts'
import {
  type PrinterTold,
  pathHolds,
  printerTold,
  rowBesideTold,
  type ToldOfPrinter,
} from './printer-told.ts'
import { reelsForTools } from './reels-for-tools.ts'
import type { ShelfView } from './shelf-view.ts'
import type { PrintAsked } from './what-is-asked.ts'
import { whatIsDrawn } from './what-is-drawn.ts'

/** What is asked of reels that no ledger has. */
export interface ToldAsked extends Omit<PrintAsked, 'printer'> {
  readonly reels: readonly (ReelTold & { readonly tool?: number })[]
  /** What is told of the printer goes before what the shelf has. */
  readonly told: ToldOfPrinter
  /** A printer of the shelf, by name or id; any printer unless given. */
  readonly onPrinter?: { readonly view: ShelfView; readonly printer: string }
  /** c; 0.95 unless given. */
  readonly confidence?: number
  /** When it is started, ms since 1970. */
  readonly start?: number
}

/**
 * Whether reels that are told here will finish a print. Of a ledger only the printer is asked, where one
 * is named.
 *
 * @returns refusals as `whatIsDrawn`, `pathHolds`, `reelsForTools`, `believeTold`, and as `findRow` for the printer
 */
export const checkTold = ({
  reels,
  told,
  onPrinter,
  confidence,
  cutShort,
  start,
  ...asked
}: ToldAsked): Outcome<CheckJson> => {
  const holds = pathHolds(told)
  if (!holds.ok) return holds
  const on = onPrinter ? ofShelf(onPrinter, told) : accept(ofNone(told))
  if (!on.ok) return on
  const { row, printer, assumed, pace } = on.value
  const drawn = whatIsDrawn(asked, row?.firmware)
  if (!drawn.ok) return drawn
  const { tools, layers, print, time } = drawn.value
  const numbers = tools.map(({ tool }) => tool)
  const given = reelsForTools(numbers, reels)
  if (!given.ok) return given
  const served: ToolServed[] = []
  for (const { tool, draw } of tools) {
    const belief = believeTold(given.value.get(tool)!, tools.length > 1 ? tool : undefined)
    if (!belief.ok) return belief
    served.push({ tool, draw, belief: belief.value })
  }
  const judged = judgeReels(served, {
    printer,
    assumed,
    ...(layers && { layers }),
    ...(confidence !== undefined && { confidence }),
    ...(cutShort === true && { inDoubt: true }),
  })
  return accept(
    checkToJson(judged.whole, judged.tools, {
      print,
      printer: row ?? {},
      findings: [],
      ...(time && {
        times: { time, pace, ...(layers && { layers }), ...(start !== undefined && { start }) },
      }),
    }),
  )
}

/** A printer as a told reel is judged on it. */
interface JudgedOn extends PrinterTold {
  readonly row?: Pick<PrinterRowJson, 'id' | 'name' | 'firmware'>
  readonly pace: Pace
}

const ofNone = (told: ToldOfPrinter): JudgedOn => ({ ...printerTold(told), pace: unknownPace() })

const ofShelf = (
  { view, printer: named }: NonNullable<ToldAsked['onPrinter']>,
  told: ToldOfPrinter,
): Outcome<JudgedOn> => {
  const found = findRow(view.rows, 'printer', named)
  if (!found.ok) return found
  const row = found.value
  const { told: known, printTold, assumed } = rowBesideTold(row, told)
  return accept({
    row,
    printer: printerLearnt(view.estimate, row.id, known, printTold),
    assumed,
    pace: paceOfPrinter(view, row.id),
  })
}
