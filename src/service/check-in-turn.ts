import type { ChecksJson, ErrorPartJson, PrintRowJson } from '../contract/index.ts'
import { readingOfRow } from '../ledger/index.ts'
import type { PrintTime } from '../print/index.ts'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import type { Verdict } from '../verdict/index.ts'
import { findOverShelf, type ShelfAsked } from './check-over-shelf.ts'
import {
  findForReels,
  isNamed,
  type ReelForTool,
  type ReelsChecked,
  reelsCheckedToJson,
} from './check-reels.ts'
import type { PrintTimes } from './clock-to-json.ts'
import type { HandedIn } from './handed-in.ts'
import { drawnTogether, oneAfterAnother } from './one-after-another.ts'
import { type ShelfChecked, shelfCheckToJson, type ToldReels } from './shelf-check-to-json.ts'
import type { ShelfView } from './shelf-view.ts'
import type { DrawAsked } from './what-is-drawn.ts'
import { withSupposed } from './with-supposed.ts'

/** A print that was kept, as one of several. */
export interface PrintOfRow {
  readonly print: PrintRowJson
  /** The file may not be the whole print. */
  readonly cutShort?: boolean
}

/** What is asked of several prints on one printer. */
export interface InTurnAsked
  extends Omit<ShelfAsked, Exclude<keyof DrawAsked, 'firmware'> | 'cutShort' | 'start' | 'most'>,
    ToldReels {
  /** In the order in which they are printed. */
  readonly prints: readonly PrintOfRow[]
  /** When the first is started, ms since 1970. */
  readonly start: number
  /** They serve every print; all of the shelf come into question unless given. */
  readonly reels?: readonly ReelForTool[]
}

/** What is wrong with one print only, and says nothing about the others. */
const ofThePrint: ReadonlySet<string> = new Set([
  'tool_not_used',
  'tool_without_reel',
  'reel_without_tool',
])

/** Whether a refusal is about one print of several. */
export const isOfThePrint = ({ code }: Pick<Refusal, 'code'>): boolean => ofThePrint.has(code)

type Judged = PrintOfRow &
  (
    | { readonly kind: 'reels'; readonly found: ReelsChecked }
    | { readonly kind: 'shelf'; readonly found: ShelfChecked }
    | { readonly kind: 'refused'; readonly refusal: Refusal }
  )

/**
 * Several prints on one printer, each begun when the one before is done and taken off: each judged by
 * itself, and all of them from the reels that were told.
 *
 * @returns refusals as `findForReels`, `findOverShelf`; what is wrong with one print alone stands in `errors`
 */
export const checkInTurn = (
  known: ShelfView,
  around: Pick<HandedIn, 'now'>,
  { prints, start, reels: told, all, most, ...asked }: InTurnAsked,
): Outcome<ChecksJson> => {
  // What is supposed of a reel is reckoned with once, and not for each print anew.
  const supposed = withSupposed(known, around, (told ?? []).filter(isNamed))
  if (!supposed.ok) return supposed
  const view = supposed.value
  const reels = told?.map(plainly)
  const judged: Judged[] = []
  for (const each of prints) {
    const found =
      reels === undefined
        ? findOverShelf(view, { ...asked, ...each, start })
        : findForReels(view, around, { ...asked, ...each, start, reels })
    if (found.ok) {
      judged.push(
        'asked' in found.value
          ? { kind: 'reels', ...each, found: found.value }
          : { kind: 'shelf', ...each, found: found.value },
      )
    } else if (isOfThePrint(found.refusal)) {
      judged.push({ kind: 'refused', ...each, refusal: found.refusal })
    } else return refuse(found.refusal)
  }
  const done = judged.filter((one) => one.kind === 'reels')
  const tools = drawnTogether(
    done.map(({ found }) => found.asked.tools),
    new Set((reels ?? []).flatMap(({ tool }) => tool ?? [])),
  )
  // One that may not be whole leaves all of them in doubt.
  const cutShort = done.some((one) => one.cutShort === true)
  const drawn = tools && { tools, prints: done.length }
  const together =
    drawn === null || reels === undefined
      ? undefined
      : findForReels(view, around, { ...asked, drawn, cutShort, reels })
  if (together?.ok === false) return together
  const checks = oneAfterAnother(judged, { timeOf, timed }).flatMap((one): ChecksJson['checks'] => {
    if (one.kind === 'refused') return []
    if (one.kind === 'reels') return [reelsCheckedToJson(one.found)]
    return [shelfCheckToJson(one.found, { all, ...(most !== undefined && { most }) })]
  })
  const whole = together === undefined ? null : reelsCheckedToJson(together.value)
  const errors = judged.flatMap((one) => (one.kind === 'refused' ? [errorOf(one)] : []))
  const calls = [...checks, ...(whole ? [whole] : [])].map(({ verdict }) => verdict)
  return accept({ verdict: callOfAll(calls, errors.length), checks, together: whole, errors })
}

/** The same without what is supposed of it, which the view has in it. */
const plainly = (one: ReelForTool): ReelForTool => {
  if (!isNamed(one)) return one
  const { tool, reel, weighing } = one
  return { reel, ...(tool !== undefined && { tool }), ...(weighing && { weighing }) }
}

const timeOf = ({ print, cutShort }: Judged): PrintTime | undefined =>
  cutShort === true ? undefined : (readingOfRow(print).time ?? undefined)

const timed = (one: Judged, change: (times: PrintTimes) => PrintTimes): Judged => {
  if (one.kind === 'refused' || one.found.times === undefined) return one
  const times = change(one.found.times)
  return one.kind === 'reels'
    ? { ...one, found: { ...one.found, times } }
    : { ...one, found: { ...one.found, times } }
}

const errorOf = ({
  print,
  refusal: { code, message, expected, received },
}: Extract<Judged, { readonly kind: 'refused' }>): ErrorPartJson => ({
  code,
  message,
  file: print.file,
  option: null,
  line: null,
  byte: null,
  expected: expected ?? null,
  received: received ?? null,
})

const order: readonly Verdict[] = ['enough', 'close', 'short']

/** The worst of several calls; null of none. */
const worstCall = (verdicts: readonly Verdict[]): Verdict | null =>
  order.findLast((verdict) => verdicts.includes(verdict)) ?? null

/** The call for several prints: none is called enough as long as one could not be judged. */
export const callOfAll = (verdicts: readonly Verdict[], refused: number): Verdict | null => {
  const worst = worstCall(verdicts)
  return worst === 'enough' && refused > 0 ? null : worst
}
