import type { CheckJson } from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { believeReel } from './believe-reel.ts'
import { checkToJson } from './check-to-json.ts'
import { findReel } from './find-reel.ts'
import type { HandedIn } from './handed-in.ts'
import { judgeReels, type ToolServed } from './judge-reels.ts'
import { paceOfPrinter } from './pace-of-printer.ts'
import { printerLearnt } from './printer-learnt.ts'
import { diameterOfReel } from './reel-card.ts'
import { reelTwice } from './reel-twice.ts'
import { reelsForTools } from './reels-for-tools.ts'
import type { ShelfView } from './shelf-view.ts'
import { onlyScale, weighingNow } from './weighing-now.ts'
import type { WeighingTold } from './weighing-told.ts'
import { type PrintAsked, whatIsAsked } from './what-is-asked.ts'
import { type Supposed, withSupposed } from './with-supposed.ts'

/** A reel that is to serve a tool, and what is supposed to have been measured for it. */
export interface ReelForTool extends Supposed {
  /** The first that has no reel yet unless given. */
  readonly tool?: number
  readonly reel: string
  /** As it would stand on the scale now; nothing is written down. */
  readonly weighing?: WeighingTold
}

/** What is asked of reels that are named. */
export interface ReelsAsked extends PrintAsked {
  readonly reels: readonly ReelForTool[]
  /** c; 0.95 unless given. */
  readonly confidence?: number
  /** When it is started, ms since 1970. */
  readonly start?: number
}

/**
 * Whether the reels named will finish a print that was kept, with all that the shelf knows of them.
 *
 * @returns `reel_twice`, and as `whatIsAsked`, `reelsForTools`, `findReel`, `findRow`, `believeReel`,
 *   `withSupposed`
 */
export const checkReels = (
  known: ShelfView,
  { now }: Pick<HandedIn, 'now'>,
  { reels, confidence, start, ...asked }: ReelsAsked,
): Outcome<CheckJson> => {
  const supposed = withSupposed(known, { now }, reels)
  if (!supposed.ok) return supposed
  const view = supposed.value
  const first = findReel(view, reels[0]?.reel ?? '')
  const card = first.ok ? view.cards.get(first.value) : undefined
  const what = whatIsAsked(view, asked, card && diameterOfReel(card))
  if (!what.ok) return what
  const { tools, layers, print, printer, told, time } = what.value
  const numbers = tools.map(({ tool }) => tool)
  const given = reelsForTools(numbers, reels)
  if (!given.ok) return given
  const at = new Date(now()).toISOString()
  const served: (ToolServed & { readonly reel: string })[] = []
  for (const { tool, draw } of tools) {
    const one = given.value.get(tool)!
    const reel = findReel(view, one.reel)
    if (!reel.ok) return reel
    const weighing = weighingNow(view, reel.value, one.weighing)
    if (!weighing.ok) return weighing
    const scale = weighing.value?.scale.id ?? onlyScale(view)
    const found = believeReel(view, {
      reel: reel.value,
      at,
      ...(printer.id !== undefined && { printer: printer.id }),
      ...(scale !== undefined && view.estimate.book.scaleAt.has(scale) && { scale }),
      ...(weighing.value && { weighing: weighing.value }),
    })
    if (!found.ok) return found
    const { belief } = found.value
    served.push({ tool, reel: reel.value, draw, belief, onShelf: found.value })
  }
  const twice = reelTwice(served)
  if (twice !== undefined) return refuse(twice)
  const { whole, tools: judged } = judgeReels(served, {
    printer: printerLearnt(view.estimate, printer.id, told),
    ...(layers && { layers }),
    ...(confidence !== undefined && { confidence }),
    ...(asked.cutShort && { inDoubt: true }),
  })
  const times = time && {
    time,
    pace: paceOfPrinter(view, printer.standsIn === true ? undefined : printer.id),
    ...(layers && { layers }),
    ...(start !== undefined && { start }),
  }
  return accept(
    checkToJson(whole, judged, { print, printer, findings: [], ...(times && { times }) }),
  )
}
