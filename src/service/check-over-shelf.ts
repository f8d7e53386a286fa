import type { ShelfCheckJson } from '../contract/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { checkShelf } from './check-shelf.ts'
import { rowsOf } from './find-row.ts'
import { fittingReels } from './fitting-reels.ts'
import { paceOfPrinter } from './pace-of-printer.ts'
import type { ReelFilter } from './reel-filter.ts'
import { shelfCheckToJson } from './shelf-check-to-json.ts'
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
  /** With all reels that are short. */
  readonly all?: boolean
  /** No more reels than this for each tool; their numbers count all. */
  readonly most?: number
}

/**
 * Which reels of the shelf could do a print that was kept.
 *
 * @returns refusals as `whatIsAsked`, `reelFilter`
 */
export const checkOverShelf = (
  view: ShelfView,
  { diameter_mm: typed, confidence = 0.95, all = false, most = Infinity, ...asked }: ShelfAsked,
): Outcome<ShelfCheckJson> => {
  const what = whatIsAsked(view, asked, typed ?? usualDiameterOf(view, undefined))
  if (!what.ok) return what
  const { tools, told, print, printer, time, layers } = what.value
  const named = printer.standsIn === true ? undefined : printer.id
  const diameter_mm = typed ?? usualDiameterOf(view, named)
  const fitting = fittingReels(view, asked, diameter_mm)
  if (!fitting.ok) return fitting
  const scales = rowsOf(view.rows, 'scale').filter(({ retired }) => retired !== true)
  const answer = checkShelf(view, {
    tools,
    told,
    ...(printer.id !== undefined && { printer: printer.id }),
    ...(scales.length === 1 && { scale: scales[0]!.id }),
    confidence,
    ...(asked.cutShort && { inDoubt: true }),
    fits: fitting.value.fits,
    most,
  })
  // What comes after a layer is no print that can be changed at one of its own, and of a file cut short
  // nobody can say that two reels are enough.
  const isWhole = asked.afterLayer === undefined && asked.cutShort !== true
  const two = twoReelsBeside(view, {
    answer,
    tools,
    told,
    confidence,
    ...(printer.id !== undefined && { printer: printer.id }),
    ...(layers && isWhole && { layers }),
  })
  const found = {
    ...answer,
    two,
    printer,
    confidence,
    diameter_mm,
    otherDiameter: fitting.value.otherDiameter,
    print,
    findings: [],
    ...(time && {
      times: { time, pace: paceOfPrinter(view, named), ...(layers && { layers }) },
    }),
  }
  return accept(shelfCheckToJson(found, { all, most }))
}
