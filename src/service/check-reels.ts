import type { CheckJson } from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import type { PrintVerdict } from '../verdict/index.ts'
import { believeNow } from './believe-now.ts'
import { believeTold, type ReelTold } from './believe-told.ts'
import { checkToJson, type ToolJudged } from './check-to-json.ts'
import type { PrintTimes } from './clock-to-json.ts'
import { findReel } from './find-reel.ts'
import type { HandedIn } from './handed-in.ts'
import { judgeReels, type ToolServed } from './judge-reels.ts'
import { paceOfPrinter } from './pace-of-printer.ts'
import { printerAssumed, printerLearnt } from './printer-learnt.ts'
import { diameterOfReel } from './reel-card.ts'
import { reelTwice } from './reel-twice.ts'
import { reelsForTools } from './reels-for-tools.ts'
import { type ShelfView, viewOf } from './shelf-view.ts'
import type { WeighingTold } from './weighing-told.ts'
import { type AskedDraw, type PrintAsked, whatIsAsked } from './what-is-asked.ts'
import { type Supposed, withSupposed } from './with-supposed.ts'

/** A reel of the shelf that is to serve a tool, and what is supposed to have been measured for it. */
export interface ReelNamed extends Supposed {
  /** The first that has no reel yet unless given. */
  readonly tool?: number
  readonly reel: string
  /** As it would stand on the scale now; nothing is written down. */
  readonly weighing?: WeighingTold
}

/** A reel that is on no shelf. */
export interface ReelOfPerson extends ReelTold {
  readonly tool?: number
}

/** A reel that is to serve a tool: one of the shelf, or one that is told here. */
export type ReelForTool = ReelNamed | ReelOfPerson

/** What is asked of reels. */
export interface ReelsAsked extends PrintAsked {
  readonly reels: readonly ReelForTool[]
  /** c; 0.95 unless given. */
  readonly confidence?: number
  /** When it is started, ms since 1970. */
  readonly start?: number
}

/** The verdict on a print, and all that it is about. */
export interface ReelsChecked {
  readonly asked: AskedDraw
  readonly whole: PrintVerdict
  readonly tools: readonly ToolJudged[]
  readonly times?: PrintTimes
}

/** Whether it is one of the shelf. */
export const isNamed = (one: ReelForTool): one is ReelNamed => 'reel' in one

/**
 * Whether reels will finish a print: those of the shelf with all that it knows of them, those that are told
 * here by that alone. Where neither a reel nor a printer of the shelf is named, the shelf is not asked, and the
 * printer is any.
 *
 * @returns `reel_twice`, and as `whatIsAsked`, `reelsForTools`, `findReel`, `findRow`, `believeNow`,
 *   `believeTold`, `withSupposed`
 */
export const findForReels = (
  known: ShelfView,
  { now }: Pick<HandedIn, 'now'>,
  { reels, confidence, start, ...asked }: ReelsAsked,
): Outcome<ReelsChecked> => {
  const named = reels.filter(isNamed)
  const isOfShelf = named.length > 0 || asked.printer !== undefined
  const shelf = isOfShelf ? accept(known) : viewOf([], [], 0)
  if (!shelf.ok) return shelf
  const supposed = withSupposed(shelf.value, { now }, named)
  if (!supposed.ok) return supposed
  const view = supposed.value
  const what = whatIsAsked(view, asked, diameterOf(view, named[0]))
  if (!what.ok) return what
  const { tools, layers, printer, told, printTold, assumed, time } = what.value
  const given = reelsForTools(
    tools.map(({ tool }) => tool),
    reels,
  )
  if (!given.ok) return given
  const served: (ToolServed & { readonly reel?: string })[] = []
  for (const { tool, draw } of tools) {
    const one = given.value.get(tool)!
    if (!isNamed(one)) {
      const belief = believeTold(one, tools.length > 1 ? tool : undefined)
      if (!belief.ok) return belief
      served.push({ tool, draw, belief: belief.value })
      continue
    }
    const reel = findReel(view, one.reel)
    if (!reel.ok) return reel
    const found = believeNow(view, {
      reel: reel.value,
      now: now(),
      ...(one.weighing && { weighing: one.weighing }),
      ...(printer.id !== undefined && { printer: printer.id }),
      ...(printTold && { printTold }),
    })
    if (!found.ok) return found
    const { belief } = found.value
    served.push({ tool, reel: reel.value, draw, belief, onShelf: found.value })
  }
  const twice = reelTwice(
    served.flatMap(({ tool, reel }) => (reel === undefined ? [] : [{ tool, reel }])),
  )
  if (twice !== undefined) return refuse(twice)
  const judged = judgeReels(served, {
    printer: printerLearnt(view.estimate, printer.id, told, printTold),
    assumed,
    assumedOfTold: printerAssumed(view.estimate, printer.id, printTold),
    ...(layers && { layers }),
    ...(confidence !== undefined && { confidence }),
    ...(asked.cutShort === true && { inDoubt: true }),
    ...(asked.drawn && { prints: asked.drawn.prints }),
  })
  return accept({
    asked: what.value,
    ...judged,
    ...(time && {
      times: {
        time,
        pace: paceOfPrinter(view, printer.standsIn === true ? undefined : printer.id),
        ...(layers && { layers }),
        ...(start !== undefined && { start }),
      },
    }),
  })
}

/** Nominal, where there is such a reel. */
const diameterOf = (view: ShelfView, one: ReelNamed | undefined): number | undefined => {
  const reel = one && findReel(view, one.reel)
  const card = reel?.ok ? view.cards.get(reel.value) : undefined
  return card && diameterOfReel(card)
}

/** The same on the wire. @returns as `findForReels` */
export const checkReels = (...asked: Parameters<typeof findForReels>): Outcome<CheckJson> => {
  const found = findForReels(...asked)
  return found.ok ? accept(reelsCheckedToJson(found.value)) : found
}

/** The verdict on the wire. */
export const reelsCheckedToJson = ({
  asked: { print, printer },
  whole,
  tools,
  times,
}: ReelsChecked): CheckJson =>
  checkToJson(whole, tools, { print, printer, findings: [], ...(times && { times }) })
