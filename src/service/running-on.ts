import type { MatchRequest, PrinterRowJson, WaitingRowJson } from '../contract/index.ts'
import type { RunningDraw } from '../match/index.ts'
import type { Store } from '../store/index.ts'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { changeBeyond, toolTwice } from './change-refusals.ts'
import { findReel } from './find-reel.ts'
import { findRow, folded } from './find-row.ts'
import { keptPrint } from './kept-print.ts'
import type { PrintDigest } from './print-digest.ts'
import { reelTwice } from './reel-twice.ts'
import type { ShelfView } from './shelf-view.ts'
import { copiesWaiting, slateOf } from './slate-order.ts'

type Busy = NonNullable<MatchRequest['busy']>[number]

/** A printer at work as it was told, its print looked up. */
export interface BusyTold extends Omit<Busy, 'print'> {
  readonly print?: string
  /** The row of the slate that was named. */
  readonly waiting?: string
  /** Family that reads the file; the printer's unless given. */
  readonly firmware?: string
}

/** A reel that feeds a tool, or fed it until another one took over. */
export interface Fed {
  readonly tool: number
  readonly reel: string
  /** It took over once this layer was done; from the beginning unless given. */
  readonly afterLayer?: number
  /** Another one took over once this layer was done, and it came off. */
  readonly untilLayer?: number
  readonly ranDry: boolean
}

/** What runs on one printer. */
export interface RunningOn {
  /** Of the printer. */
  readonly name: string
  /** Hours from now until it can begin. */
  readonly free_h: number
  /** What is known to come off reels. */
  readonly draws: readonly (RunningDraw & { readonly file: string })[]
  /** Reels that are on it, by tool, whatever they give; where they were changed, the last. */
  readonly loaded: Readonly<Record<number, string>>
}

/** All that runs, and what that makes of the slate. */
export interface Running {
  /** By id of the printer. */
  readonly on: ReadonlyMap<string, RunningOn>
  /** How many copies of a waiting print run, by its id. */
  readonly copies: ReadonlyMap<string, number>
  /** Reels that ran dry in what runs: the name of its printer. */
  readonly dry: ReadonlyMap<string, string>
  readonly notes: readonly string[]
}

/**
 * Looks up the prints that were told to run: by the name or id of a waiting print, the name of a file that
 * was kept, the latest of that name, or the beginning of a hash.
 *
 * @returns `running_unknown`, and as `keptPrint`
 */
export const printsRunning = async (
  store: Store,
  { rows }: Pick<ShelfView, 'rows'>,
  busy: readonly Busy[] = [],
): Promise<Outcome<readonly BusyTold[]>> => {
  const told: BusyTold[] = []
  const kept = busy.some(({ print }) => print !== undefined) ? await store.prints() : []
  for (const { print: typed, ...more } of busy) {
    if (typed === undefined) {
      told.push(more)
      continue
    }
    const waits = slateOf(rows).find(({ id, name }) =>
      [id, name].some((each) => folded(each) === folded(typed)),
    )
    if (waits !== undefined) {
      told.push({ ...more, print: waits.print, waiting: waits.id })
      continue
    }
    const name = folded(typed.split(/[/\\]/).at(-1)!)
    const file = kept.find((each) => folded(each.file) === name)
    if (file !== undefined) {
      told.push({ ...more, print: file.id })
      continue
    }
    // oxlint-disable-next-line no-await-in-loop -- few, and the first that is not known ends it
    const print = /^[\da-f]+$/i.test(typed) ? await keptPrint({ store }, typed) : undefined
    if (print?.ok !== true) {
      return (
        print ??
        refuse({
          code: 'running_unknown',
          message: `No print "${typed}" waits or was ever kept, so nobody can tell what it takes. Put it on the slate first: the copy that runs is not planned then.`,
          received: typed,
        })
      )
    }
    told.push({ ...more, print: print.value.id })
  }
  return accept(told)
}

/**
 * What runs on the printers, what it takes and from which reels. Of several prints on one printer the last
 * end counts.
 *
 * @param printers - those in use, by id
 * @param now - ms since 1970
 * @returns `printer_not_in_use`, `running_reels_needed`, `tool_not_used`, `running_tool_twice`,
 *   `change_out_of_order`, `change_to_itself`, `beyond_print`, `reel_twice`, and as `findRow`, `findReel`
 */
export const runningOn = (
  view: ShelfView,
  prints: ReadonlyMap<string, PrintDigest>,
  busy: readonly BusyTold[],
  printers: ReadonlyMap<string, PrinterRowJson>,
  now: number,
): Outcome<Running> => {
  const on = new Map<string, RunningOn>()
  const copies = new Map<string, number>()
  const dry = new Map<string, string>()
  const notes: string[] = []
  for (const { printer: typed, until, print: id, waiting, firmware, reels: told = [] } of busy) {
    const found = findRow(view.rows, 'printer', typed)
    if (!found.ok) return found
    const printer = found.value
    if (!printers.has(printer.id)) {
      return refuse({
        code: 'printer_not_in_use',
        message: `${printer.name} is not in use, so nothing can run on it.`,
        received: typed,
      })
    }
    const print = id === undefined ? undefined : prints.get(id)
    const fed = reelsRunning(view, printer, print, told)
    if (!fed.ok) return fed
    const free_h = until === undefined ? 0 : Math.max(0, (Date.parse(until) - now) / 3_600_000)
    const draws = fed.value.flatMap(({ ranDry: _dry, ...part }) =>
      print === undefined
        ? []
        : [
            {
              ...part,
              file: print.file,
              draw: print.drawOf(part.tool, firmware ?? printer.firmware),
            },
          ],
    )
    for (const { reel, ranDry } of fed.value) if (ranDry) dry.set(reel, printer.name)
    const before = on.get(printer.id)
    notes.push(...notesOfTwo(printer, on, fed.value))
    on.set(printer.id, {
      name: printer.name,
      free_h: Math.max(before?.free_h ?? 0, free_h),
      draws: [...(before?.draws ?? []), ...draws],
      loaded: {
        ...before?.loaded,
        ...Object.fromEntries(fed.value.filter(isOn).map(({ tool, reel }) => [tool, reel])),
      },
    })
    const row = rowThatRuns(view, copies, id, waiting)
    if (row !== undefined) {
      const times = copies.get(row.id) ?? 0
      copies.set(row.id, times + 1)
      const copy = row.copies > 1 ? `copy ${(row.done ?? 0) + times + 1} runs` : 'it runs'
      notes.push(`${row.name} (${row.id}): ${copy} on ${printer.name} and is not planned anew.`)
    }
    notes.push(...notesOfOne(printer, print, fed.value, until === undefined ? null : free_h))
  }
  return accept({ on, copies, dry, notes })
}

const isOn = ({ untilLayer }: Pick<Fed, 'untilLayer'>): boolean => untilLayer === undefined

/** What is told of a printer or a reel that was told before: it can run one print only. */
const notesOfTwo = (
  { id, name }: PrinterRowJson,
  on: ReadonlyMap<string, RunningOn>,
  fed: readonly Fed[],
): readonly string[] => {
  const ask = 'What both take is counted; write down which of them has ended.'
  const before = on.get(id)
  return [
    ...(before !== undefined && before.draws.length > 0 && fed.length > 0
      ? [`More than one print is told to run on ${name}. ${ask}`]
      : []),
    // One that came off before may well run elsewhere now.
    ...fed
      .filter(isOn)
      .flatMap(({ reel }) =>
        [...on]
          .filter(
            ([other, { draws }]) =>
              other !== id && draws.some((each) => each.reel === reel && isOn(each)),
          )
          .map(([, other]) => `${reel} is told to run on ${other.name} and on ${name}. ${ask}`),
      ),
  ]
}

/** What is not known of a print that runs. */
const notesOfOne = (
  { name }: PrinterRowJson,
  print: PrintDigest | undefined,
  fed: readonly Fed[],
  free_h: number | null,
): readonly string[] => {
  if (print === undefined) {
    if (fed.length === 0) return []
    const reels = new Set(fed.map(({ reel }) => reel))
    return [
      `What runs on ${name} was not told: what it takes of ${[...reels].join(' and ')} is not counted.`,
    ]
  }
  const untold = print.tools.flatMap((tool) => {
    const first = fed.find((each) => each.tool === tool)
    if (first === undefined) return [`T${tool}`]
    const last = fed.findLast((each) => each.tool === tool)
    return [
      ...(first.afterLayer === undefined ? [] : [`T${tool} up to layer ${first.afterLayer}`]),
      ...(last?.ranDry === true ? [`T${tool} after ${last.reel} ran dry`] : []),
    ]
  })
  return [
    ...(free_h === null
      ? [
          `How long ${print.file} still runs on ${name} is not known: that is planned as if it were free now.`,
        ]
      : []),
    ...(free_h === 0
      ? [
          `${print.file} should have ended on ${name}. Until that is written down, what it takes is counted as still to come.`,
        ]
      : []),
    ...(untold.length === 0
      ? []
      : [
          `What ${untold.join(' and ')} of ${print.file} takes on ${name} is not counted: from which reel was not told.`,
        ]),
  ]
}

/** The row whose copy runs: that named, or the most urgent that waits for the print. */
const rowThatRuns = (
  { rows }: Pick<ShelfView, 'rows'>,
  copies: ReadonlyMap<string, number>,
  print: string | undefined,
  waiting: string | undefined,
): WaitingRowJson | undefined =>
  slateOf(rows).find(
    (row) =>
      (waiting === undefined ? row.print === print : row.id === waiting) &&
      copiesWaiting(row) > (copies.get(row.id) ?? 0),
  )

/**
 * The reels of a print that runs, held against it and in the order in which they came on.
 *
 * @param print - undefined where it is not known
 * @returns as `runningOn`
 */
export const reelsRunning = (
  view: Pick<ShelfView, 'cards'>,
  { name }: Pick<PrinterRowJson, 'name'>,
  print: PrintDigest | undefined,
  told: NonNullable<Busy['reels']>,
): Outcome<readonly Fed[]> => {
  if (print !== undefined && told.length === 0) {
    return refuse({
      code: 'running_reels_needed',
      message: `From which reel does ${print.file} run on ${name}? What it takes comes off that.`,
    })
  }
  const fed: Fed[] = []
  for (const { tool: typed, reel, after_layer: afterLayer, ran_dry: ranDry = false } of told) {
    const found = findReel(view, reel)
    if (!found.ok) return found
    const tool = typed ?? print?.tools[0] ?? 0
    const isTold = typed !== undefined || (print?.tools.length ?? 1) === 1
    if (!isTold || (print !== undefined && !print.tools.includes(tool))) {
      return refuse({
        code: 'tool_not_used',
        message: `${print!.file} feeds from ${print!.tools.map((one) => `T${one}`).join(', ')}: say which of them runs from which reel.`,
        received: reel,
      })
    }
    const next = {
      tool,
      reel: found.value,
      ranDry,
      ...(afterLayer !== undefined && { afterLayer }),
    }
    const last = fed.findLastIndex((each) => each.tool === tool)
    const refusal = whyNoChange(fed[last], next, print)
    if (refusal !== undefined) return refuse(refusal)
    if (last >= 0) fed[last] = { ...fed[last]!, untilLayer: next.afterLayer! }
    fed.push(next)
  }
  const begins = new Set(fed.map(({ afterLayer = 0 }) => afterLayer))
  for (const layer of begins) {
    const twice = reelTwice(fed.filter((each) => feedsAfter(each, layer)))
    if (twice !== undefined) return refuse(twice)
  }
  // In the order in which they came on: a reel may have gone from one tool to another.
  return accept(fed.toSorted((a, b) => (a.afterLayer ?? 0) - (b.afterLayer ?? 0)))
}

const feedsAfter = ({ afterLayer = 0, untilLayer = Infinity }: Fed, layer: number): boolean =>
  afterLayer <= layer && layer < untilLayer

/** Why a reel can not have taken over from the one that was told before it of the same tool. */
const whyNoChange = (
  before: Fed | undefined,
  { tool, reel, afterLayer }: Fed,
  print: PrintDigest | undefined,
): Refusal | undefined => {
  if (before !== undefined) {
    if (afterLayer === undefined) return { ...toolTwice(tool), code: 'running_tool_twice' }
    if (afterLayer === before.afterLayer) {
      return {
        code: 'running_tool_twice',
        message: `${before.reel} and ${reel} are both told to feed T${tool} after layer ${afterLayer}, and a tool feeds from one reel at a time. Look at the numbers again.`,
        received: String(afterLayer),
      }
    }
    if (afterLayer < (before.afterLayer ?? 0)) {
      return {
        code: 'change_out_of_order',
        message: `Reels are told in the order in which they fed T${tool}: ${reel} can not have taken over after layer ${afterLayer} from ${before.reel}, which came on after layer ${before.afterLayer}. Look at the numbers again.`,
        received: String(afterLayer),
      }
    }
    if (reel === before.reel) {
      return {
        code: 'change_to_itself',
        message: `${reel} can not take over from itself after layer ${afterLayer}. Say which other reel fed T${tool}, or leave the change out.`,
        received: reel,
      }
    }
  }
  return afterLayer === undefined || print === undefined
    ? undefined
    : changeBeyond(afterLayer, print.layers.count)
}
