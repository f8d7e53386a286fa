import type { ShelfCheckJson } from '../contract/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { checkShelf } from './check-shelf.ts'
import { rowsOf } from './find-row.ts'
import { fittingReels } from './fitting-reels.ts'
import { paceOfPrinter } from './pace-of-printer.ts'
import type { ReelFilter } from './reel-filter.ts'
import { type ShelfChecked, shelfCheckToJson, type ToldReels } from './shelf-check-to-json.ts'
import type { ShelfView } from './shelf-view.ts'
import { twoReelsBeside } from './two-reels.ts'
import { usualDiameterOf } from './usual-diameter-of.ts'
import { type PrintAsked, whatIsAsked } from './what-is-asked.ts'

/** What is asked of the whole shelf. */
export interface ShelfAsked extends PrintAsked, ReelFilter {
  /** Nominal, mm; what the printer was fed last unless given. */
  readonly diameter_mm?: number
  /** c; 0.95 unless given. */
  readonly confidence?: number
  /** When it is started, ms since 1970. */
  readonly start?: number
  /** No more reels than this for each tool; their numbers count all. */
  readonly most?: number
}

/**
 * Which reels of the shelf could do a print that was kept.
 *
 * @returns refusals as `whatIsAsked`, `reelFilter`
 */
export const findOverShelf = (
  view: ShelfView,
  { diameter_mm: typed, confidence = 0.95, most = Infinity, start, ...asked }: ShelfAsked,
): Outcome<ShelfChecked> => {
  const what = whatIsAsked(view, asked, typed ?? usualDiameterOf(view, undefined))
  if (!what.ok) return what
  const { tools, told, printTold, print, printer, time, layers } = what.value
  const named = printer.standsIn === true ? undefined : printer.id
  const diameter_mm = typed ?? usualDiameterOf(view, named)
  const fitting = fittingReels(view, asked, diameter_mm)
  if (!fitting.ok) return fitting
  const scales = rowsOf(view.rows, 'scale').filter(({ retired }) => retired !== true)
  const on = {
    tools,
    told,
    confidence,
    ...(printer.id !== undefined && { printer: printer.id }),
    ...(printTold && { printTold }),
  }
  const answer = checkShelf(view, {
    ...on,
    ...(scales.length === 1 && { scale: scales[0]!.id }),
    ...(asked.cutShort && { inDoubt: true }),
    fits: fitting.value.fits,
    most,
  })
  // What comes after a layer is no print that can be changed at one of its own, and of a file cut short
  // nobody can say that two reels are enough.
  const isWhole = asked.afterLayer === undefined && asked.cutShort !== true
  const two = twoReelsBeside(view, { ...on, answer, ...(layers && isWhole && { layers }) })
  return accept({
    ...answer,
    two,
    printer,
    confidence,
    diameter_mm,
    otherDiameter: fitting.value.otherDiameter,
    materials: fitting.value.materials,
    print,
    findings: [],
    ...(time && {
      times: {
        time,
        pace: paceOfPrinter(view, named),
        ...(layers && { layers }),
        ...(start !== undefined && { start }),
      },
    }),
  })
}

/** The same on the wire. @returns as `findOverShelf` */
export const checkOverShelf = (
  view: ShelfView,
  { all = false, ...asked }: ShelfAsked & Partial<ToldReels>,
): Outcome<ShelfCheckJson> => {
  const found = findOverShelf(view, asked)
  const { most = Infinity } = asked
  return found.ok ? accept(shelfCheckToJson(found.value, { all, most })) : found
}
