import type { MatchRequest, PrinterRowJson, WaitingRowJson } from '../contract/index.ts'
import { newReelWork, type WorkBelief, workBelief } from '../estimate/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import {
  type EarlierChoice,
  type MatchCopy,
  type MatchPrinter,
  type MatchReel,
  type MatchSlate,
  type MatchTask,
  type ReelTraits,
  reelsThatFit,
  usefulMass,
} from '../match/index.ts'
import { accept, grams, measured, millimetres, type Outcome, refuse } from '../units/index.ts'
import { cutShort } from './cut-short.ts'
import { findRow, rowsOf } from './find-row.ts'
import { findWaiting } from './find-waiting.ts'
import { listReels } from './list-reels.ts'
import { wishesOf } from './match-wishes.ts'
import { nameOfReel } from './name-of-reel.ts'
import type { PrintDigest } from './print-digest.ts'
import { diameterOfReel, usualDiameter_mm } from './reel-card.ts'
import { reelNow } from './reel-now.ts'
import { type BusyTold, type Running, type RunningOn, runningOn } from './running-on.ts'
import type { ShelfView } from './shelf-view.ts'
import { slateOf } from './slate-order.ts'
import { waitingTakes } from './waiting-takes.ts'

/** What is asked of a match, beside how long it may take and how it is ended. */
export type MatchAsked = Omit<MatchRequest, 'limit_s' | 'search'>

/** The same, with the prints that run looked up. */
export type MatchMeant = Omit<MatchAsked, 'busy'> & {
  readonly busy: readonly BusyTold[]
  /** What is to be told before all else. */
  readonly notes?: readonly string[]
}

/** One copy of a waiting print. */
export interface CopyAsked {
  readonly id: string
  readonly row: WaitingRowJson
  /** Its number, from 1. */
  readonly copy: number
  readonly print: PrintDigest
}

/** A reel that may be taken. */
export interface ReelOffered {
  readonly id: string
  readonly name: string
  readonly srgb: string | null
  /** Absent for a reel that is imagined. */
  readonly card?: ReelCard
  readonly belief: WorkBelief
}

/** A slate as the match takes it, and what its ids stand for. */
export interface MatchQuestion {
  readonly slate: MatchSlate
  readonly copies: ReadonlyMap<string, CopyAsked>
  readonly reels: ReadonlyMap<string, ReelOffered>
  readonly printers: ReadonlyMap<string, PrinterRowJson>
  /** By id of the printer. */
  readonly running: Running['on']
  readonly notes: readonly string[]
}

/**
 * The slate and the shelf as a match takes them.
 *
 * @param prints - of the rows that wait, and of those that run
 * @param now - ms since 1970
 * @returns `nothing_waits`, `no_printer`, and as `runningOn`, `wishesOf`, `findWaiting`, `findRow`
 */
export const matchQuestion = (
  view: ShelfView,
  prints: ReadonlyMap<string, PrintDigest>,
  asked: MatchMeant,
  now: number,
): Outcome<MatchQuestion> => {
  const notes = [...(asked.notes ?? [])]
  const dropped = new Set<string>()
  for (const typed of asked.dropped ?? []) {
    const found = findWaiting(view.rows, typed)
    if (!found.ok) return found
    dropped.add(found.value.id)
  }
  const rows = slateOf(view.rows).filter(({ id }) => !dropped.has(id))
  const inUse = rowsOf(view.rows, 'printer').filter(
    ({ id, retired }) => retired !== true && view.estimate.book.printerAt.has(id),
  )
  if (rows.length === 0) {
    return refuse({
      code: 'nothing_waits',
      message: 'Nothing waits. Put a print on the slate with: reelreckon slate add FILE',
    })
  }
  if (inUse.length === 0) {
    return refuse({
      code: 'no_printer',
      message:
        'No printer is set up to print anything. Set it up once with: reelreckon printer add NAME.',
    })
  }
  const printers = new Map(inUse.map((row) => [row.id, row]))
  const runs = runningOn(view, prints, asked.busy, printers, now)
  if (!runs.ok) return runs
  notes.push(...runs.value.notes)
  const offered = reelsOffered(view, asked, [...printers.keys()], runs.value.dry)
  if (!offered.ok) return offered
  notes.push(...offered.value.notes)
  const traits = offered.value.traits
  const copies = new Map<string, CopyAsked>()
  const matched: MatchCopy[] = []
  for (const row of rows) {
    const print = prints.get(row.print)
    const onPrinters = (row.printers ?? [...printers.keys()]).filter((id) => printers.has(id))
    const why =
      print === undefined
        ? 'its print was never kept: take it off the slate and put its file on it anew'
        : print.tools.length === 0
          ? 'its print draws nothing'
          : onPrinters.length === 0
            ? 'no printer that may do it is in use'
            : undefined
    if (why !== undefined || print === undefined) {
      notes.push(`${row.name} (${row.id}) is left out: ${why}.`)
      continue
    }
    notes.push(...cutShort(view, row).map((sentence) => `${row.name} (${row.id}): ${sentence}`))
    const common = {
      ...copyParts(row, print, onPrinters, printers, traits, now),
      ...durationOf(view, row, print),
    }
    const running = runs.value.copies.get(row.id) ?? 0
    for (let copy = (row.done ?? 0) + running + 1; copy <= row.copies; copy++) {
      const id = copyId(row.id, copy)
      copies.set(id, { id, row, copy, print })
      matched.push({ id, ...common })
    }
  }
  if (matched.length === 0) {
    return refuse({
      code: 'nothing_waits',
      message: ['Nothing waits that can be matched.', ...notes].join(' '),
    })
  }
  const { on } = runs.value
  const wanted = new Set([
    ...[...on.values()].flatMap(({ draws }) => draws.map(({ reel }) => reel)),
    ...matched.flatMap(({ tasks }) =>
      tasks.flatMap(({ fits, inAnyColour = [] }) => [...fits, ...inAnyColour]),
    ),
  ])
  const reels = offered.value.reels.filter(({ id }) => wanted.has(id))
  const wishes = wishesOf(view, asked, {
    copies,
    matched,
    offered: offered.value.reels,
    leftOut: offered.value.notes,
  })
  if (!wishes.ok) return wishes
  const { locks, barred } = wishes.value
  notes.push(...wishes.value.notes)
  const known = new Set(reels.map(({ id }) => id))
  const slate: MatchSlate = {
    copies: matched.map((copy) => withoutUnknown(copy, known)),
    reels: reels.map(
      ({ id, belief, card }): MatchReel => ({
        id,
        belief,
        sealed: card === undefined || card.state === 'new',
      }),
    ),
    printers: inUse.map((row) => printerOf(row, loadedOn(view, row.id, known, on), on.get(row.id))),
    useful_g: asked.useful_g ?? usefulMass(massesTaken(view)),
    ...(asked.confidence !== undefined && { confidence: asked.confidence }),
    locks,
    barred: barred.filter(({ reel }) => known.has(reel)),
    earlier: earlierOf(view),
  }
  return accept({
    slate,
    copies,
    reels: new Map(reels.map((reel) => [reel.id, reel])),
    printers,
    running: on,
    notes,
  })
}

/** How a plan names a copy. */
export const copyId = (waiting: string, copy: number): string => `${waiting}#${copy}`

interface Offered {
  readonly reels: readonly ReelOffered[]
  readonly traits: readonly ReelTraits[]
  readonly notes: readonly string[]
}

const reelsOffered = (
  view: ShelfView,
  { new_reels: imagined = [] }: MatchMeant,
  printers: readonly string[],
  dry: Running['dry'],
): Outcome<Offered> => {
  const reels: ReelOffered[] = []
  const traits: ReelTraits[] = []
  const notes: string[] = []
  for (const { card, now, contradicted } of listReels(view, () => true, false)) {
    if (dry.has(card.id)) {
      notes.push(`Reel ${card.id} is left out: it ran dry on ${dry.get(card.id)}.`)
      continue
    }
    if (now === undefined) {
      notes.push(`Reel ${card.id} is left out: nothing can be reckoned of it.`)
      continue
    }
    if (contradicted !== undefined) {
      notes.push(
        `Reel ${card.id} is left out: a weighing of it contradicts everything else. See reelreckon reel show ${card.id}.`,
      )
      continue
    }
    reels.push({
      id: card.id,
      name: nameOfReel(card),
      srgb: card.colour?.srgb ?? null,
      card,
      belief: workBelief(view.estimate, card.id, printers),
    })
    traits.push({
      id: card.id,
      material: card.make?.material ?? null,
      diameter_mm: diameterOfReel(card),
      colour: card.colour?.name ?? null,
    })
  }
  for (const [place, { make: typed, label_net_g, colour }] of imagined.entries()) {
    const make = findRow(view.rows, 'make', typed)
    if (!make.ok) return make
    const label = label_net_g ?? make.value.label_net_g
    if (label === undefined || !view.estimate.book.makeAt.has(make.value.id)) {
      return refuse({
        code: 'label_needed',
        message: `Nothing says how much is on a new reel of ${make.value.maker} ${make.value.name}. Say it: label 1kg.`,
      })
    }
    const id = `new ${place + 1}`
    reels.push({
      id,
      name: [
        `${make.value.maker} ${make.value.name}`,
        ...(colour === undefined ? [] : [colour]),
      ].join(', '),
      srgb: null,
      belief: newReelWork(view.estimate, make.value.id, grams(label), printers),
    })
    traits.push({
      id,
      material: make.value.material ?? null,
      diameter_mm: make.value.nominal_diameter_mm ?? usualDiameter_mm,
      colour: colour ?? null,
    })
  }
  return accept({ reels, traits, notes })
}

const copyParts = (
  row: WaitingRowJson,
  print: PrintDigest,
  onPrinters: readonly string[],
  printers: ReadonlyMap<string, PrinterRowJson>,
  traits: readonly ReelTraits[],
  now: number,
): Omit<MatchCopy, 'id'> => {
  const families = new Set(onPrinters.map((id) => printers.get(id)?.firmware))
  const [firmware] = families
  const tasks = print.tools.map((tool): MatchTask => {
    const wants = row.tools?.find((each) => each.tool === tool)
    const { fits, inAnyColour } = reelsThatFit(
      {
        material: wants?.material ?? null,
        diameter_mm: wants?.diameter_mm ?? usualDiameter_mm,
        colour: wants?.colours ? { kind: 'any_of', colours: wants.colours } : { kind: 'any' },
      },
      traits,
    )
    const only = wants?.reel
    return {
      tool,
      // Where printers read the file differently it is asked with all that they may make of it.
      draw: print.drawOf(tool, families.size === 1 ? firmware : undefined),
      fits: only === undefined ? fits : fits.filter((id) => id === only),
      // Who wants one reel wants no other colour: what would help is another reel that is like it.
      inAnyColour: only === undefined ? inAnyColour : fits,
    }
  })
  const last = print.layers.count - 1
  const layers = row.changes?.after_layers?.flatMap(([from, to]) =>
    Array.from({ length: Math.max(0, Math.min(to, last) - from + 1) }, (_, k) => from + k),
  )
  const mayChange =
    row.changes !== undefined && last >= 1 && (layers === undefined || layers.length > 0)
  return {
    tasks,
    printers: onPrinters,
    ...(row.importance !== undefined && { importance: row.importance }),
    ...(row.due !== undefined && { due_h: (Date.parse(row.due) - now) / 3_600_000 }),
    ...(mayChange && {
      changes: {
        most: row.changes?.most ?? 1,
        ...(layers && { afterLayers: [...new Set(layers)].toSorted((a, b) => a - b) }),
      },
    }),
  }
}

/**
 * As the person told it; else so long that the planned print takes longer with a chance of 5 % only, for a
 * pace that is slower than usual is so for all prints of a printer.
 */
const durationOf = (
  view: ShelfView,
  row: WaitingRowJson,
  { time }: PrintDigest,
): Pick<MatchCopy, 'duration_h'> => {
  if (row.duration_h !== undefined) return { duration_h: row.duration_h }
  const takes = waitingTakes(view, row, time)
  return takes === null ? {} : { duration_h: takes.late_s / 3600 }
}

const withoutUnknown = (copy: MatchCopy, known: ReadonlySet<string>): MatchCopy => ({
  ...copy,
  tasks: copy.tasks.map((task) => ({ ...task, fits: task.fits.filter((id) => known.has(id)) })),
})

const printerOf = (
  { id, tail_mm: tail, change_mm: change }: PrinterRowJson,
  loaded: Readonly<Record<number, string>>,
  runs: RunningOn | undefined,
): MatchPrinter => ({
  id,
  loaded,
  ...(runs && { free_h: runs.free_h, running: runs.draws }),
  ...(tail && { tail_mm: measured(millimetres(tail.value), tail.u) }),
  ...(change && { change_mm: measured(change.value, change.u) }),
})

/**
 * The reels on a printer, as far as they may be taken: those that run, else those that its last print left
 * there and nothing has drawn from elsewhere since.
 */
const loadedOn = (
  { standing }: ShelfView,
  printer: string,
  known: ReadonlySet<string>,
  running: Running['on'],
): Readonly<Record<number, string>> => {
  const told = new Set(
    [...running.values()].flatMap(({ loaded, draws }) =>
      Object.values(loaded).concat(draws.map(({ reel }) => reel)),
    ),
  )
  const last = standing.facts.findLast((fact) => fact.kind === 'drew' && fact.printer === printer)
  const together = standing.facts
    .filter((fact) => fact.kind === 'drew')
    .filter((fact) => fact.printer === printer && fact.recorded_at === last?.recorded_at)
    // Where reels were changed in the print, the last of them is on the printer.
    .toSorted((a, b) => (a.layers?.after ?? 0) - (b.layers?.after ?? 0))
    .map((fact) => [fact.tool ?? 0, fact.reel] as const)
  const isHere = (reel: string): boolean =>
    known.has(reel) &&
    !told.has(reel) &&
    standing.facts
      .filter((fact) => fact.kind === 'drew' && fact.reel === reel)
      .findLast((fact) => fact.kind === 'drew')?.printer === printer
  return {
    ...Object.fromEntries(together.filter(([, reel]) => isHere(reel))),
    ...Object.fromEntries(
      Object.entries(running.get(printer)?.loaded ?? {}).filter(([, reel]) => known.has(reel)),
    ),
  }
}

/** More of them would not change what is usual. */
const mostDraws = 300

/** What the tools of past prints took, g. */
const massesTaken = (view: ShelfView): readonly number[] => {
  const perMetre = new Map<string, number>()
  const drawn = view.standing.facts.filter((fact) => fact.kind === 'drew' && fact.length_mm > 0)
  return drawn.slice(-mostDraws).flatMap((fact) => {
    if (fact.kind !== 'drew' || !view.estimate.book.reelAt.has(fact.reel)) return []
    const known = perMetre.get(fact.reel) ?? reelNow(view, fact.reel).linearDensity.value
    perMetre.set(fact.reel, known)
    return [(fact.length_mm / 1000) * known * (fact.share?.value ?? 1)]
  })
}

const earlierOf = ({ rows }: ShelfView): readonly EarlierChoice[] => {
  const plan = rows.find((row) => row.kind === 'plan')
  return (plan?.choices ?? []).map(({ waiting, copy, tool, reel, printer }) => ({
    copy: copyId(waiting, copy),
    tool,
    reel,
    printer,
  }))
}
