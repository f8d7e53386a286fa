import {
  type DrewJson,
  type FactJson,
  type PrinterRowJson,
  type PrintRowJson,
  type StoppedAtJson,
  showId,
} from '../contract/index.ts'
import { readingOfRow, shareFed } from '../ledger/index.ts'
import type { FamilyReading } from '../print/index.ts'
import { accept, formatIsoMinute, type Outcome, refuse } from '../units/index.ts'
import { choosePrinter } from './choose-printer.ts'
import { copyDone } from './copy-done.ts'
import { findReel } from './find-reel.ts'
import type { HandedIn } from './handed-in.ts'
import { keptPrint } from './kept-print.ts'
import { newFactId } from './new-id.ts'
import { overShelf } from './over-shelf.ts'
import { type Recorded, record } from './record.ts'
import { factCommon, type Said } from './said.ts'
import type { ShelfView } from './shelf-view.ts'
import { checkRunDry } from './surprise-of-run-dry.ts'
import { checkHeld } from './surprise-of-taking.ts'
import { timedOf } from './timed-of.ts'
import { checkWeighedSince } from './weighed-since.ts'

/** Which reel fed a tool. */
export interface ToolFed {
  /** The only one of the print unless given. */
  readonly tool?: number
  /** Id of the reel. */
  readonly reel: string
  /** True when it ran out in this print. */
  readonly ranDry?: boolean
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
}

/**
 * Writes down what a print, finished or not, or any length took off its reels, all in one
 * transaction; the print is kept with it.
 *
 * @returns `print_unknown`, `print_ambiguous`, `firmware_needed`, `tool_without_reel`,
 *   `tool_not_used`, `tool_twice`, `stop_needs_print`, `run_dry_needs_stop`,
 *   `took_needs_print`, `took_needs_end`, `took_without_plan`, `drew_more_than_held`, `weighed_since`, `run_dry_surprising`,
 *   and as `findReel`, `choosePrinter`, `shareFed`, `record`
 */
export const recordDraw = (handed: HandedIn, input: DrawInput): Promise<Outcome<Recorded>> =>
  overShelf(handed, (view) => drawOver(handed, view, input))

const drawOver = async (
  handed: HandedIn,
  view: ShelfView,
  input: DrawInput,
): Promise<Outcome<Recorded>> => {
  const printer = choosePrinter(view.rows, input.printer)
  if (!printer.ok) return printer
  const print = input.kept === undefined ? accept(input.print) : await keptPrint(handed, input.kept)
  if (!print.ok) return print
  const draws =
    print.value === undefined
      ? lengthFed(view, input)
      : printFed(view, input, print.value, printer.value)
  if (!draws.ok) return draws
  const timed = timedOf(print.value, input)
  if (!timed.ok) return timed

  const common = factCommon(handed, input)
  const drawn: DrewJson[] = []
  const notes: string[] = []
  for (const { reel, length_mm, tool, share } of draws.value) {
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
  const hasFinished = input.stoppedAt === undefined && ends.length === 0
  const done = copyDone(view, {
    print: hasFinished ? print.value?.id : undefined,
    waiting: input.waiting,
    now: handed.now(),
  })
  if (!done.ok) return done
  const { rows } = done.value
  return record(
    handed,
    view,
    { facts, rows, ...(input.kept === undefined ? { prints } : { kept: prints }) },
    [...notes, ...done.value.notes],
  )
}

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
  // Nobody can have fed the whole of it from a reel that ended before: the whole would be taken as fed.
  if (stoppedAt === undefined && reels.some(({ ranDry }) => ranDry === true)) {
    return refuse({
      code: 'run_dry_needs_stop',
      message:
        'A reel that ran dry did not feed the whole print: say where it stopped. If it went on with another reel, the rest is recorded as a length from that one.',
    })
  }
  const used = group.value.tools.filter(({ peak_mm }) => peak_mm > 0)
  const numbers = used.map(({ tool }) => tool)
  const free = numbers.filter((tool) => !reels.some((each) => each.tool === tool))
  const draws: ToolDraw[] = []
  for (const fed of reels) {
    const number = fed.tool ?? free[0]
    const tool = used.find((each) => each.tool === number)
    if (tool === undefined) {
      return refuse({
        code: 'tool_not_used',
        message:
          fed.tool === undefined
            ? 'There are more reels than tools that feed. Leave one out.'
            : `The print does not feed from T${fed.tool}. It feeds from ${listOf(numbers)}.`,
      })
    }
    if (draws.some((draw) => draw.tool === tool.tool)) {
      return refuse({
        code: 'tool_twice',
        message: `T${tool.tool} is told twice, and a tool feeds from one reel. Of a change of reel in the print, record the print from one reel up to where it was changed, and the rest as a length from the other.`,
        received: `T${tool.tool}`,
      })
    }
    if (fed.tool === undefined) free.shift()
    const reel = findReel(view, fed.reel)
    if (!reel.ok) return reel
    const share = stoppedAt && shareFed(tool, reading.layers, stoppedAt, shareDoubt)
    if (share?.ok === false) return share
    draws.push({
      fed,
      reel: reel.value,
      length_mm: tool.peak_mm,
      tool: tool.tool,
      ...(share && { share: share.value }),
    })
  }
  const without = numbers.filter((number) => !draws.some(({ tool }) => tool === number))
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
