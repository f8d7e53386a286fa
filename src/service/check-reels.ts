import type { CheckJson } from '../contract/index.ts'
import { kitchenScale } from '../filament/index.ts'
import { accept, grams, measured, type Outcome, refuse } from '../units/index.ts'
import { judgePrint, nextMeasuresOfPrint, type ToolInput } from '../verdict/index.ts'
import { believeReel, type ReelBelieved, type WeighingNow } from './believe-reel.ts'
import { checkToJson, type ToolJudged } from './check-to-json.ts'
import { usualScale } from './choose-scale.ts'
import { findReel } from './find-reel.ts'
import { findRow, rowsOf } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import { paceOfPrinter } from './pace-of-printer.ts'
import { printerLearnt } from './printer-learnt.ts'
import { diameterOfReel } from './reel-card.ts'
import { reelTwice } from './reel-twice.ts'
import type { ShelfView } from './shelf-view.ts'
import { type WeighingTold, weighingOf } from './weighing-told.ts'
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
}

/**
 * Whether the reels named will finish a print that was kept, with all that the shelf knows of them.
 *
 * @returns `tool_not_used`, `tool_without_reel`, `reel_twice`, and as `whatIsAsked`, `findReel`, `findRow`,
 *   `believeReel`, `withSupposed`
 */
export const checkReels = (
  known: ShelfView,
  { now }: Pick<HandedIn, 'now'>,
  { reels, confidence, ...asked }: ReelsAsked,
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
  const given = givenTo(numbers, reels)
  if (!given.ok) return given
  const at = new Date(now()).toISOString()
  const common = {
    printer: printerLearnt(view.estimate, printer.id, told),
    ...(layers && { layers }),
    ...(confidence !== undefined && { confidence }),
    ...(asked.cutShort && { inDoubt: true }),
  }
  const inputs: ToolInput[] = []
  const believed: ReelBelieved[] = []
  const served: { readonly tool: number; readonly reel: string }[] = []
  for (const { tool, draw } of tools) {
    const one = given.value.get(tool)!
    const reel = findReel(view, one.reel)
    if (!reel.ok) return reel
    served.push({ tool, reel: reel.value })
    const weighing = weighingNow(view, one.weighing)
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
    believed.push(found.value)
    inputs.push({ tool, belief: found.value.belief, draw, ...common })
  }
  const twice = reelTwice(served)
  if (twice !== undefined) return refuse(twice)
  const verdict = judgePrint(inputs)
  const next = nextMeasuresOfPrint(inputs)
  const judged = inputs.map(
    ({ tool, belief }, place): ToolJudged => ({
      tool,
      belief,
      verdict: verdict.tools[place]!,
      next: next[place]!,
      assumed: belief.assumed,
      onShelf: believed[place]!,
    }),
  )
  const times = time && {
    time,
    pace: paceOfPrinter(view, printer.standsIn === true ? undefined : printer.id),
    ...(layers && { layers }),
  }
  return accept(
    checkToJson(verdict, judged, { print, printer, findings: [], ...(times && { times }) }),
  )
}

const givenTo = (
  numbers: readonly number[],
  reels: readonly ReelForTool[],
): Outcome<ReadonlyMap<number, ReelForTool>> => {
  const given = new Map<number, ReelForTool>()
  const named = new Set(reels.map(({ tool }) => tool))
  const free = numbers.filter((tool) => !named.has(tool))
  for (const one of reels) {
    const tool = one.tool ?? free.shift()
    if (tool === undefined || !numbers.includes(tool) || given.has(tool)) {
      return refuse({
        code: 'tool_not_used',
        message: `The print feeds from ${listOf(numbers)}: give each of them one reel, and no other tool any.`,
      })
    }
    given.set(tool, one)
  }
  const without = numbers.filter((tool) => !given.has(tool))
  if (without.length === 0) return accept(given)
  return refuse({
    code: 'tool_without_reel',
    message: `The print feeds from ${listOf(numbers)}: say which reel serves ${listOf(without)}.`,
  })
}

const listOf = (tools: readonly number[]): string => tools.map((tool) => `T${tool}`).join(', ')

const onlyScale = ({ rows }: ShelfView): string | undefined => {
  const [one, ...more] = rowsOf(rows, 'scale').filter(({ retired }) => retired !== true)
  return more.length === 0 ? one?.id : undefined
}

/** Where no scale is named the only one; on a shelf with none or several, a usual kitchen scale. */
const weighingNow = (
  view: ShelfView,
  told: WeighingTold | undefined,
): Outcome<WeighingNow | undefined> => {
  if (told === undefined) return accept(undefined)
  const { extra_g: extra } = told
  const found = told.scale === undefined ? undefined : findRow(view.rows, 'scale', told.scale)
  if (found?.ok === false) return found
  const id = found?.value.id ?? onlyScale(view)
  const row = rowsOf(view.rows, 'scale').find((each) => each.id === id)
  const scale = view.shelf.catalogue.scales.find((each) => each.id === id)
  const usual = { id: 'kitchen scale', scale: kitchenScale }
  const { u_g } = weighingOf(told, row ?? { id: usual.id, ...usualScale })
  return accept({
    scale: scale ?? usual,
    reading: grams(told.reading_g),
    ...(u_g !== undefined && { u: u_g }),
    ...(extra && { extra: measured(grams(extra.value), extra.u) }),
  })
}
