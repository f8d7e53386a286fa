import {
  type DrewJson,
  type FactJson,
  type PrinterRowJson,
  type PrintRowJson,
  type RunningRowJson,
  type StoppedAtJson,
  showId,
} from '../contract/index.ts'
import { readingOfRow, shareFed } from '../ledger/index.ts'
import type { FamilyReading } from '../print/index.ts'
import {
  accept,
  formatIsoMinute,
  formatMass,
  grams,
  measured,
  type Outcome,
  refuse,
} from '../units/index.ts'
import { toolTwice } from './change-refusals.ts'
import { choosePrinter } from './choose-printer.ts'
import { copyDone } from './copy-done.ts'
import { fedBetween } from './fed-between.ts'
import { findReel } from './find-reel.ts'
import type { HandedIn } from './handed-in.ts'
import { keptPrint } from './kept-print.ts'
import { newFactId } from './new-id.ts'
import { overShelf } from './over-shelf.ts'
import { familyOf } from './reading-told.ts'
import { type Recorded, record } from './record.ts'
import { factCommon, type Said } from './said.ts'
import type { ShelfView } from './shelf-view.ts'
import { drawnSinceStart, runningEnded, runningOfDraw } from './start-running.ts'
import { checkRunDry } from './surprise-of-run-dry.ts'
import { checkHeld } from './surprise-of-taking.ts'
import { timedOf } from './timed-of.ts'
import { toMinute } from './to-minute.ts'
import { checkWeighedSince } from './weighed-since.ts'

/** Which reel fed a tool. */
export interface ToolFed {
  /** The only one of the print unless given. */
  readonly tool?: number
  /** Id of the reel. */
  readonly reel: string
  /** True when it ran out in this print. */
  readonly ranDry?: boolean
  /** It took over once this layer was done, 1-based, from the reel of the same tool before it. */
  readonly afterLayer?: number
}

/** A print that was made, or a length that was fed. */
export interface DrawInput extends Said {
  /** The print as read now; or `kept`, the beginning of the id of one that was kept; or `length_mm`. */
  readonly print?: PrintRowJson
  readonly kept?: string
  readonly length_mm?: number
  readonly reels: readonly ToolFed[]
  /** Name or id. */
  readonly printer?: string
  /** Firmware family; that of the printer unless given. */
  readonly firmware?: string
  readonly stoppedAt?: StoppedAtJson
  /** How long the finished print took from its start, s. */
  readonly took_s?: number
  /**
   * When the print was started, where `at` is not told: a weighing since then is asked about; null: it is not.
   * Of a print that was written down as started it is known.
   */
  readonly startedAt?: string | null
  /**
   * Of a print that was written down as started: true where what was recorded of it from its reels since is
   * another copy. Unless given that is asked about.
   */
  readonly another?: boolean
  /** Standard uncertainty of `stoppedAt.share`, as typed. */
  readonly shareDoubt?: number
  /** True to take it though it is surprising: that a reel ran dry, or gave more than it held. */
  readonly accept?: boolean
  /**
   * Name or id of the waiting print of which one copy is done by it; null: of none. Unless given, the most
   * urgent that waits for the same print, where it finished.
   */
  readonly waiting?: string | null
}

/** What of it a tool fed. */
interface ToolDraw {
  readonly fed: ToolFed
  readonly reel: string
  readonly length_mm: number
  readonly tool?: number
  readonly share?: { readonly value: number; readonly u: number }
  readonly layers?: NonNullable<DrewJson['layers']>
}

/**
 * Writes down what a print, finished or not, or any length took off its reels, all in one
 * transaction; the print is kept with it.
 *
 * @returns `print_unknown`, `print_ambiguous`, `firmware_needed`, `tool_without_reel`,
 *   `tool_not_used`, `tool_taken`, `tool_needed`, `tool_twice`, `change_out_of_order`, `stop_needs_print`, `run_dry_needs_stop`,
 *   `took_needs_print`, `took_needs_end`, `took_without_plan`, `drew_more_than_held`, `drawn_meanwhile`,
 *   `weighed_meanwhile`, `weighed_since`, `run_dry_surprising`,
 *   and as `familyOf`, `findReel`, `choosePrinter`, `shareFed`, `record`
 */
export const recordDraw = (handed: HandedIn, input: DrawInput): Promise<Outcome<Recorded>> =>
  overShelf(handed, (view) => drawOver(handed, view, input))

const drawOver = async (
  handed: HandedIn,
  view: ShelfView,
  told: DrawInput,
): Promise<Outcome<Recorded>> => {
  const family = told.firmware === undefined ? undefined : familyOf(told.firmware)
  if (family?.ok === false) return family
  const said = { ...told, ...(family && { firmware: family.value }) }
  const started = runningOfDraw(view, told.id)
  const input = started === undefined ? said : withStart(said, started)
  const printer = choosePrinter(view.rows, input.printer)
  if (!printer.ok) return printer
  const print = input.kept === undefined ? accept(input.print) : await keptPrint(handed, input.kept)
  if (!print.ok) return print
  if (started !== undefined && started.print !== print.value?.id) {
    return refuse({
      code: 'id_taken',
      message:
        'Another print that was started has this id: nothing was written down. Use a new id.',
      received: started.id,
    })
  }
  const draws =
    print.value === undefined
      ? lengthFed(view, input)
      : printFed(view, input, print.value, printer.value)
  if (!draws.ok) return draws
  const timed = timedOf(print.value, input)
  if (!timed.ok) return timed

  const once = checkOnce(view, input, started)
  if (!once.ok) return once
  const apart = checkMeanwhile(view, input, new Set(draws.value.map(({ reel }) => reel)))
  if (!apart.ok) return apart

  const common = factCommon(handed, input)
  const drawn: DrewJson[] = []
  const notes: string[] = []
  for (const { reel, length_mm, tool, share, layers } of draws.value) {
    const drew: DrewJson = {
      ...common,
      id: drawn.length === 0 ? common.id : newFactId(handed),
      kind: 'drew',
      reel,
      printer: printer.value.id,
      length_mm,
      ...(print.value && { print: print.value.id }),
      ...(tool !== undefined && { tool }),
      ...(input.stoppedAt && { stopped_at: input.stoppedAt }),
      ...(share && { share }),
      ...(layers && { layers }),
      ...(timed.value && drawn.length === 0 && { timed: timed.value }),
    }
    const before = print.value && recordedBefore(view, drew)
    if (before !== undefined) notes.push(before)
    const missing = maybeMissed(view, drew)
    if (missing !== undefined) notes.push(missing)
    drawn.push(drew)
  }
  const ends: FactJson[] = []
  const accepted = new Map<string, Pick<DrewJson, 'accepted_off'>>()
  const isAccepted = input.accept === true
  for (const reel of new Set(draws.value.map((draw) => draw.reel))) {
    const fed = draws.value.filter((draw) => draw.reel === reel)
    const held = checkHeld(view, reel, { at: common.at, fed, isAccepted })
    if (!held.ok) return held
    accepted.set(reel, held.value)
    if (!fed.some((draw) => draw.fed.ranDry === true)) continue
    const { tail_mm } = printer.value
    const dry = { ...(tail_mm && { tail_mm }) }
    const likely = checkRunDry(view, reel, { at: common.at, fed, ...dry, isAccepted })
    if (!likely.ok) return likely
    ends.push({
      ...common,
      id: newFactId(handed),
      kind: 'ran-dry',
      reel,
      ...dry,
      ...likely.value,
    })
  }
  // What tools took together is more than their reel held: each of these draws says so.
  const drew = drawn.map((fact) => Object.assign({}, fact, accepted.get(fact.reel)))
  const facts = [...drew, ...ends]
  const reels = [...accepted.keys()].map((reel) => ({ reel, at: common.at }))
  const fits = checkWeighedSince(view, { facts, reels, isAccepted })
  if (!fits.ok) return fits
  const prints = print.value === undefined ? [] : [print.value]
  // A print with a reel that ran dry and no stop went on with another one.
  const hasFinished =
    input.stoppedAt === undefined && (print.value !== undefined || ends.length === 0)
  const done = copyDone(view, {
    print: hasFinished ? print.value?.id : undefined,
    waiting:
      input.waiting === undefined && hasFinished && started?.waiting !== undefined
        ? started.waiting
        : input.waiting,
    now: handed.now(),
  })
  if (!done.ok) return done
  const ended = runningEnded(view, drew, handed.now())
  const rows = [...done.value.rows, ...ended.rows]
  return record(
    handed,
    view,
    { facts, rows, ...(input.kept === undefined ? { prints } : { kept: prints }) },
    [...notes, ...done.value.notes, ...ended.notes],
  )
}

/** What was told when the print was started, where the draw does not say otherwise. */
const withStart = (
  told: DrawInput,
  { printer, firmware, started_at }: RunningRowJson,
): DrawInput => ({
  printer,
  startedAt: started_at,
  ...(firmware !== undefined && { firmware }),
  ...told,
})

const lengthFed = (
  view: ShelfView,
  { length_mm, reels, stoppedAt }: DrawInput,
): Outcome<readonly ToolDraw[]> => {
  const [fed, ...more] = reels
  if (length_mm === undefined || fed === undefined || more.length > 0) {
    return refuse({
      code: 'reel_needed',
      message: 'A length is fed from one reel: say which.',
    })
  }
  if (stoppedAt !== undefined) {
    return refuse({
      code: 'stop_needs_print',
      message: 'Where it stopped is told of a print. Of a length, give what was fed.',
    })
  }
  const reel = findReel(view, fed.reel)
  return reel.ok ? accept([{ fed, reel: reel.value, length_mm }]) : reel
}

const printFed = (
  view: ShelfView,
  { reels, firmware, stoppedAt, shareDoubt }: DrawInput,
  row: PrintRowJson,
  printer: PrinterRowJson,
): Outcome<readonly ToolDraw[]> => {
  const reading = readingOfRow(row)
  const group = groupOf(reading.families, firmware ?? printer.firmware, printer.name)
  if (!group.ok) return group
  const used = group.value.tools.filter(({ peak_mm }) => peak_mm > 0)
  const numbers = used.map(({ tool }) => tool)
  const toolOf = toolsFed(reels, numbers)
  const draws: ToolDraw[] = []
  for (const fed of reels) {
    const number = toolOf.get(fed)
    const tool = used.find((each) => each.tool === number)
    if (tool === undefined) {
      return fed.tool === undefined
        ? noToolLeft(fed, reels, toolOf, numbers)
        : refuse({
            code: 'tool_not_used',
            message: `The print does not feed from T${fed.tool}. It feeds from ${listOf(numbers)}.`,
          })
    }
    const sameTool = reels.filter((one) => toolOf.get(one) === number)
    const after = fed.afterLayer
    if (sameTool.some((one) => one !== fed && one.afterLayer === after)) {
      return refuse(toolTwice(tool.tool))
    }
    const next = sameTool
      .flatMap(({ afterLayer: layer }) =>
        layer !== undefined && layer > (after ?? 0) ? [layer] : [],
      )
      .toSorted((a, b) => a - b)[0]
    // Nobody can have fed the whole of it from a reel that ended before: the whole would be taken as fed.
    if (fed.ranDry === true && stoppedAt === undefined && next === undefined) {
      return refuse({
        code: 'run_dry_needs_stop',
        message:
          'A reel that ran dry did not feed the whole print: say where it stopped, or which reel took over from it and after which layer.',
      })
    }
    const reel = findReel(view, fed.reel)
    if (!reel.ok) return reel
    const stop = stoppedAt && shareFed(tool, reading.layers, stoppedAt, shareDoubt)
    if (stop?.ok === false) return stop
    const common = { fed, reel: reel.value, length_mm: tool.peak_mm, tool: tool.tool }
    if (after === undefined && next === undefined) {
      draws.push({ ...common, ...(stop && { share: stop.value }) })
      continue
    }
    const share = fedBetween(
      tool,
      { after, to: next },
      { ranDry: fed.ranDry === true, stop: stop?.value },
    )
    if (!share.ok) return share
    draws.push({
      ...common,
      share: share.value,
      layers: { ...(after !== undefined && { after }), ...(next !== undefined && { to: next }) },
    })
  }
  const without = numbers.filter(
    (number) => !draws.some(({ tool, layers }) => tool === number && layers?.after === undefined),
  )
  if (without.length > 0) {
    return refuse({
      code: 'tool_without_reel',
      message:
        numbers.length === 1
          ? 'Say which reel fed it.'
          : `The print feeds from ${listOf(numbers)}: say which reel fed ${listOf(without)}.`,
      ...(numbers.length > 1 && { expected: `T${without[0]}` }),
    })
  }
  return accept(draws)
}

/** Which tool each reel fed; undefined where there is none left for it. */
const toolsFed = (
  reels: readonly ToolFed[],
  numbers: readonly number[],
): ReadonlyMap<ToolFed, number | undefined> => {
  const free = numbers.filter(
    (tool) => !reels.some((each) => each.tool === tool && each.afterLayer === undefined),
  )
  return new Map(
    reels.map((fed) => [
      fed,
      fed.tool ?? (fed.afterLayer === undefined ? free.shift() : onlyOf(numbers)),
    ]),
  )
}

/** A reel without a tool, where each tool that feeds has another. */
const noToolLeft = (
  { reel, afterLayer }: ToolFed,
  reels: readonly ToolFed[],
  toolOf: ReadonlyMap<ToolFed, number | undefined>,
  numbers: readonly number[],
): ReturnType<typeof refuse> => {
  if (afterLayer !== undefined) {
    return refuse({
      code: 'tool_needed',
      message: `The print feeds from ${listOf(numbers)}: say at which of them reel ${reel} took over after layer ${afterLayer}.`,
      received: reel,
    })
  }
  const has = numbers.map((tool) => {
    const others = reels.filter((each) => toolOf.get(each) === tool).map((each) => each.reel)
    return `T${tool} from ${others.join(', then ')}`
  })
  return refuse({
    code: 'tool_taken',
    message:
      has.length === 0
        ? `The print feeds nothing, so reel ${reel} fed none of it.`
        : `Reel ${reel} is told without a tool, and each tool that the print feeds from has another reel: ${has.join(', ')}. Leave one of them out, or, where one took over from the other in the print, say after which layer.`,
    received: reel,
  })
}

const onlyOf = (numbers: readonly number[]): number | undefined =>
  numbers.length === 1 ? numbers[0] : undefined

const listOf = (tools: readonly number[]): string => tools.map((tool) => `T${tool}`).join(', ')

/** How the printer's firmware reads the print. */
const groupOf = (
  families: readonly FamilyReading[],
  firmware: string | undefined,
  printer: string,
): Outcome<FamilyReading> => {
  const [first, ...others] = families
  const named = families.find((group) => group.families.some((family) => family === firmware))
  if (named !== undefined) return accept(named)
  if (first !== undefined && others.length === 0) return accept(first)
  return refuse({
    code: 'firmware_needed',
    message: `Firmware families feed this print differently: say which of them runs ${printer}, or set it once for the printer. It is one of ${families.flatMap((group) => group.families).join(', ')}.`,
  })
}

/**
 * A weighing of a reel since its print was started: nobody but who made it knows whether what the print took
 * was off the reel by then, and counted after it that may count twice. Of a start that is told to the minute
 * what was weighed in the same minute came before it: a reel that feeds is not on the scale.
 */
const checkMeanwhile = (
  { standing }: ShelfView,
  { at, startedAt }: Pick<DrawInput, 'at' | 'startedAt'>,
  reels: ReadonlySet<string>,
): Outcome<void> => {
  if (at !== undefined || startedAt === undefined || startedAt === null) return accept(undefined)
  const weighed = standing.facts.findLast(
    (fact) =>
      fact.kind === 'weighed' &&
      reels.has(fact.reel) &&
      (toMinute(startedAt) === startedAt ? toMinute(fact.at) > startedAt : fact.at >= startedAt),
  )
  if (weighed?.kind !== 'weighed') return accept(undefined)
  const shown = formatMass(measured(grams(weighed.weighing.reading_g)))
  return refuse({
    code: 'weighed_meanwhile',
    message: `Nothing was recorded yet: ${weighed.reel} was weighed (${shown}) after this print was started. Had the print ended by then, what it took is off that weighing already.`,
    received: shown,
  })
}

/**
 * A print that runs and was recorded without its id, as where another copy could be meant: ended, it would
 * count twice. Only a person knows.
 */
const checkOnce = (
  view: ShelfView,
  { another }: Pick<DrawInput, 'another'>,
  started: RunningRowJson | undefined,
): Outcome<void> => {
  const before = started && another !== true ? drawnSinceStart(view, started) : undefined
  if (before === undefined) return accept(undefined)
  return refuse({
    code: 'drawn_meanwhile',
    message: `Nothing was recorded: since it was started this print was recorded from ${before.reel} already, at ${formatIsoMinute(before.at)}. If that was this one, it only has to be taken off the prints that run; if it was another copy, say so.`,
    received: before.id,
  })
}

/** A print that was recorded from the same reel before may have been recorded twice. */
const recordedBefore = ({ standing }: ShelfView, drew: DrewJson): string | undefined => {
  const before = standing.facts.findLast(
    (fact) => fact.kind === 'drew' && fact.print === drew.print && fact.reel === drew.reel,
  )
  return before === undefined
    ? undefined
    : `This print was recorded from ${drew.reel} before, at ${formatIsoMinute(before.at)}. If it was the same, put one of them right; this one is ${showId(drew.id)}.`
}

/**
 * The first draw after a weighing that showed too little and was taken all the same: if it is what was
 * missing then, it came before, and told as after it is counted twice.
 */
const maybeMissed = ({ standing }: ShelfView, drew: DrewJson): string | undefined => {
  const before = standing.facts
    .filter((fact) => (fact.kind === 'weighed' || fact.kind === 'drew') && fact.reel === drew.reel)
    .filter(({ at }) => Date.parse(at) <= Date.parse(drew.at))
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .at(-1)
  if (before?.kind !== 'weighed' || !((before.accepted_off ?? 0) < 0)) return undefined
  return `${drew.reel} held less than expected when it was weighed at ${formatIsoMinute(before.at)}. If this is what was fed before that and not written down, it counts twice: put ${showId(drew.id)} right with a moment before that weighing.`
}
