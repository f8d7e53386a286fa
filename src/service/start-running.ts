import type {
  DrewJson,
  RunningChangeRequest,
  RunningReelJson,
  RunningReelTold,
  RunningRequest,
  RunningRowJson,
} from '../contract/index.ts'
import { idLength, readId, showId } from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { changedAfter } from './catalogue-rows.ts'
import { choosePrinter } from './choose-printer.ts'
import { findWaiting } from './find-waiting.ts'
import type { HandedIn } from './handed-in.ts'
import { keptPrint } from './kept-print.ts'
import { newFactId } from './new-id.ts'
import { overShelf } from './over-shelf.ts'
import { type PrintDigest, printDigest } from './print-digest.ts'
import { familyOf } from './reading-told.ts'
import { type Recorded, record } from './record.ts'
import { reelsRunning } from './running-on.ts'
import { runningOf } from './running-prints.ts'
import type { ShelfView } from './shelf-view.ts'
import { toMinute } from './to-minute.ts'

/**
 * Writes down that a print was started. It takes nothing off its reels until its draw is recorded.
 *
 * @param told - `print` as the beginning of the id of one that was kept; told again by its `id` it is
 *   written down once, and not at all where its draw was recorded before
 * @returns `id_taken`, and as `keptPrint`, `choosePrinter`, `reelsRunning`, `findWaiting`, `familyOf`, `record`
 */
export const startRunning = (handed: HandedIn, told: RunningRequest): Promise<Outcome<Recorded>> =>
  overShelf(handed, async (view) => {
    const print = await keptPrint(handed, told.print)
    if (!print.ok) return print
    const before = told.id === undefined ? undefined : knownBefore(view, told.id)
    if (before !== undefined) return again(view, before, print.value.id)
    const printer = choosePrinter(view.rows, told.printer)
    if (!printer.ok) return printer
    const reels = reelsTold(view, printer.value, printDigest(print.value), told.reels)
    if (!reels.ok) return reels
    const waiting = told.waiting === undefined ? undefined : findWaiting(view.rows, told.waiting)
    if (waiting?.ok === false) return waiting
    const family = told.firmware === undefined ? undefined : familyOf(told.firmware)
    if (family?.ok === false) return family
    const now = handed.now()
    const { takes, told: expected, note } = told
    const row: RunningRowJson = {
      kind: 'running',
      id: told.id ?? newFactId(handed),
      changed_at: new Date(now).toISOString(),
      ...(note !== undefined && { note }),
      print: print.value.id,
      printer: printer.value.id,
      started_at: toMinute(told.started_at ?? new Date(now).toISOString()),
      recorded_at: new Date(now).toISOString(),
      reels: reels.value,
      ...(family && { firmware: family.value }),
      ...(takes && { takes }),
      ...(expected && { told: expected }),
      ...(waiting && { waiting: waiting.value.id }),
    }
    return record(handed, view, { facts: [], rows: [row], kept: [print.value] })
  })

/**
 * Changes what is known of a print that runs; what is not told stays.
 *
 * @param typed - its id
 * @returns `running_print_unknown`, `running_has_ended`, `tool_needed`, `nothing_changed`, and as `startRunning`
 */
export const changeRunning = (
  handed: HandedIn,
  typed: string,
  { took_over: next, reels, ended, note }: RunningChangeRequest,
): Promise<Outcome<Recorded>> =>
  overShelf(handed, async (view) => {
    const found = findRunning(view, typed)
    if (!found.ok) return found
    const before = found.value
    const hasEnded = before.ended !== undefined
    const printer = choosePrinter(view.rows, before.printer)
    if (!printer.ok) return printer
    const kept = await handed.store.print(before.print)
    const print = kept && printDigest(kept)
    const whole = reels ?? before.reels
    const fedNow = next === undefined ? accept(whole) : withNext(print, whole, next)
    if (!fedNow.ok) return fedNow
    const fed =
      reels === undefined && next === undefined
        ? accept(before.reels)
        : reelsTold(view, printer.value, print, fedNow.value)
    if (!fed.ok) return fed
    const change = { reels: fed.value, ended, note }
    const row = Object.fromEntries(
      Object.entries({ ...before, ...withoutUntold(change) }).filter(([, value]) => value !== null),
    ) as unknown as RunningRowJson
    const notes = stillDue(view, row)
    if (JSON.stringify(row) === JSON.stringify(before)) {
      // Who did not hear the answer tells it again: that is no slip.
      if (next !== undefined || ended !== undefined)
        return told(view, before, knownAlready, ...notes)
      return refuse({
        code: 'nothing_changed',
        message: 'Nothing of this print is told that was not known. Say what to change.',
      })
    }
    if (hasEnded && ended === undefined && note === undefined) {
      return refuse({
        code: 'running_has_ended',
        message: 'This print has ended: what fed it is told of its draw now.',
        received: typed,
      })
    }
    const changed = { ...row, changed_at: changedAfter(before, handed.now()) }
    return record(handed, view, { facts: [], rows: [changed], kept: kept ? [kept] : [] }, notes)
  })

/** Of a print that is told to have ended while nothing says what it took. */
const stillDue = (view: ShelfView, row: RunningRowJson): readonly string[] => {
  const { id, reels, ended } = row
  const took = ended === 'finished' || ended === 'failed'
  if (!took || view.facts.some((fact) => fact.id === id)) return []
  const drawn = drawnSinceStart(view, row)
  if (drawn !== undefined) {
    return [
      `It was recorded from ${drawn.reel} already; if that was another copy, record the draw of this one with its id ${showId(id)}.`,
    ]
  }
  const fed = [...new Set(reels.map(({ reel }) => reel))].join(' and ')
  return [
    `What it took is not off ${fed}: record its draw with its id ${showId(id)}, or weigh what is left.`,
  ]
}

/**
 * The last draw of the same print from a reel of one that was started, since it was started, where it is not
 * known to be that of another one.
 */
export const drawnSinceStart = (
  { rows, standing }: Pick<ShelfView, 'rows' | 'standing'>,
  { print, started_at, reels }: RunningRowJson,
): DrewJson | undefined => {
  const drawn = standing.facts.filter(
    (fact): fact is DrewJson =>
      fact.kind === 'drew' && fact.print === print && toMinute(fact.at) >= started_at,
  )
  if (drawn.length === 0) return undefined
  const started = new Set(rows.flatMap(({ kind, id }) => (kind === 'running' ? [id] : [])))
  // The parts of one draw are written down at once, and the first has the id.
  const ofOthers = new Set(
    drawn.flatMap(({ id, recorded_at }) => (started.has(id) ? [recorded_at] : [])),
  )
  return drawn.findLast(
    ({ reel, recorded_at }) => reels.some((fed) => fed.reel === reel) && !ofOthers.has(recorded_at),
  )
}

/** What a draw says of the prints that run. */
export interface RunningEnded {
  readonly rows: readonly RunningRowJson[]
  readonly notes: readonly string[]
}

/** The print that was started and that a draw of this id ends. */
export const runningOfDraw = (
  { rows }: Pick<ShelfView, 'rows'>,
  id: string | undefined,
): RunningRowJson | undefined =>
  rows.find((row): row is RunningRowJson => row.kind === 'running' && row.id === id)

/**
 * Which print that runs is ended by draws that are being written down: that of their id, or the only one of
 * the same print on the same printer, where they name all of its reels and come after its start, and where
 * it finished not before it can have.
 *
 * @param drew - of one print, all parts of it; the first has the id
 */
export const runningEnded = (
  view: Pick<ShelfView, 'rows' | 'facts'>,
  drew: readonly DrewJson[],
  now: number,
): RunningEnded => {
  const [first] = drew
  const none = { rows: [], notes: [] }
  if (first === undefined) return none
  const end = (row: RunningRowJson): RunningRowJson => ({
    ...row,
    changed_at: changedAfter(row, now),
    ended: first.stopped_at === undefined ? 'finished' : 'failed',
  })
  const own = runningOfDraw(view, first.id)
  if (own !== undefined) return { rows: [end(own)], notes: [] }
  const alike = runningOf(view.rows, view.facts).filter(
    ({ print, printer, started_at }) =>
      print === first.print && printer === first.printer && started_at <= first.at,
  )
  const [one, ...more] = alike
  if (one === undefined) return none
  const fed = new Set(drew.map(({ reel }) => reel))
  const isSame =
    more.length === 0 &&
    one.reels.every(({ reel }) => fed.has(reel)) &&
    (first.stopped_at !== undefined || canHaveFinished(one, first.at))
  return isSame
    ? { rows: [end(one)], notes: ['It is off the prints that run.'] }
    : {
        rows: [],
        notes: [
          `A print of this file is told to run there still (${alike.map(({ id }) => showId(id)).join(', ')}): if it was this one, say so where it runs. It is not counted again there unless you say that it was another.`,
        ],
      }
}

/** Another copy, recorded late, may have finished before: that one has only begun. */
const canHaveFinished = ({ started_at, takes }: RunningRowJson, at: string): boolean =>
  Date.parse(started_at) + 1000 * (takes?.early_s ?? 0) <= Date.parse(at)

/** What has this id already: a print that was started, or the draw it ended as. */
const knownBefore = (view: ShelfView, id: string): RunningRowJson | string | undefined => {
  const row = runningOfDraw(view, id)
  if (row !== undefined) return row
  const fact = view.facts.find((each) => each.id === id)
  if (fact === undefined) return undefined
  return fact.kind === 'drew' ? (fact.print ?? '') : ''
}

const knownAlready = 'This was written down before; nothing was counted twice.'

const again = (
  view: ShelfView,
  before: RunningRowJson | string,
  print: string,
): Outcome<Recorded> => {
  const isEnded = typeof before === 'string'
  if ((isEnded ? before : before.print) !== print) {
    return refuse({
      code: 'id_taken',
      message: 'Another fact has this id: what was posted was not written down. Use a new id.',
    })
  }
  return isEnded
    ? told(view, undefined, 'What became of this print was recorded before: it does not run.')
    : told(view, before, knownAlready)
}

/** An answer for which nothing is written down. */
const told = (
  view: ShelfView,
  row: RunningRowJson | undefined,
  ...notes: readonly string[]
): Outcome<Recorded> =>
  accept({
    facts: [],
    rows: row === undefined ? [] : [row],
    prints: [],
    notes,
    view,
    reels: [],
  })

const findRunning = (view: ShelfView, typed: string): Outcome<RunningRowJson> => {
  const id = readId(typed, idLength.fact)
  const row = id.ok ? runningOfDraw(view, id.value) : undefined
  return row === undefined
    ? refuse({
        code: 'running_print_unknown',
        message: 'No print of this id was started.',
        received: typed,
      })
    : accept(row)
}

/** Reels as they are kept. */
const reelsTold = (
  view: ShelfView,
  printer: { readonly name: string },
  print: PrintDigest | undefined,
  reels: readonly RunningReelTold[],
): Outcome<readonly RunningReelJson[]> => {
  const fed = reelsRunning(view, printer, print, reels)
  if (!fed.ok) return fed
  return accept(
    // oxlint-disable-next-line oxc/no-map-spread -- few
    fed.value.map(({ tool, reel, afterLayer, ranDry }) => ({
      tool,
      reel,
      ...(afterLayer !== undefined && { after_layer: afterLayer }),
      ...(ranDry && { ran_dry: true as const }),
    })),
  )
}

/** The reels with one that took over; told again they stay as they are. */
const withNext = (
  print: PrintDigest | undefined,
  before: readonly RunningReelTold[],
  { ran_dry: isDry = false, tool: typed, ...next }: NonNullable<RunningChangeRequest['took_over']>,
): Outcome<readonly RunningReelTold[]> => {
  const tools = new Set([...(print?.tools ?? []), ...before.flatMap(({ tool }) => tool ?? [])])
  const tool = typed ?? (tools.size === 1 ? [...tools][0] : undefined)
  if (tool === undefined) {
    return refuse({
      code: 'tool_needed',
      message: `The print feeds from several tools: say at which of them ${next.reel} took over.`,
      received: next.reel,
    })
  }
  const last = before.findLastIndex((each) => (each.tool ?? tool) === tool)
  const at = before[last]
  if (at?.reel === next.reel && at.after_layer === next.after_layer) return accept(before)
  const dry = isDry && at !== undefined ? before.with(last, { ...at, ran_dry: true }) : before
  return accept([...dry, { ...next, tool }])
}

const withoutUntold = <T extends object>(parts: T): Partial<T> =>
  Object.fromEntries(Object.entries(parts).filter(([, value]) => value !== undefined)) as Partial<T>
