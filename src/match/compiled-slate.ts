import { DomainError, type Measured, type Millimetres, measured } from '../units/index.ts'
import { type DrawAlternative, unknownPrinter } from '../verdict/index.ts'
import { type ChangeNode, changeNodes, partNodes } from './change-nodes.ts'
import { checkSlate } from './check-slate.ts'
import type { MatchPrinter, MatchReel, MatchSlate, PlannedChanges, RunningDraw } from './slate.ts'
import { usualUsefulMass } from './useful-mass.ts'

/** What a change takes of the reel that comes in, mm; common practice, no source. */
export const usualChange: Measured = measured(200, 60)

const changeOn = ({ change_mm = usualChange }: MatchPrinter): Measured => change_mm

/** What one tool of one copy, or a part of it between two changes, asks of a reel on a printer. */
export interface Piece {
  /** A number of its own. */
  readonly place: number
  readonly copy: number
  /** Place in `CompiledSlate.tasks`. */
  readonly task: number
  readonly tool: number
  /** Place of the printer. */
  readonly printer: number
  /** Place among the task's nodes where it begins: 0 is the beginning of the print. */
  readonly from: number
  /** Node where it ends; the last is the end of the print. */
  readonly to: number
  /** Draw asked of it under each reading of the file, heaviest first, weights adding up to 1. */
  readonly lengths: readonly { readonly weight: number; readonly length_mm: number }[]
  /** What the change takes with which it comes in; null for the beginning of a print. */
  readonly change_mm: Measured | null
  /** The chance that is asked of every reel that serves a piece of this print. */
  readonly confidence: number
  /** Places of the reels that may serve it. */
  readonly reels: readonly number[]
}

/** What a print that runs asks of a reel. */
export interface RunningPiece extends Piece {
  /** Layers of a part; see `RunningDuty`. */
  readonly afterLayer: number
  readonly untilLayer: number | null
}

/**
 * Nodes that follow each other, places of the first and the last, of which it is left open at which a print
 * is changed: what comes before takes it to be the first, what comes after the last. Of one node nothing is open.
 */
export interface Cut {
  readonly first: number
  readonly last: number
}

export interface CompiledTask {
  readonly place: number
  readonly copy: number
  readonly tool: number
  /** How many its copy has. */
  readonly tools: number
  readonly draw: readonly DrawAlternative[]
  /** Where it may begin, change and end, the beginning and the end included. */
  readonly nodes: readonly ChangeNode[]
  /** Between which nodes it may be changed, in order; of what is not said otherwise, at every inner one. */
  readonly cuts: readonly Cut[]
  readonly mostChanges: number
  /** Where it may be changed, as it was asked. */
  readonly changes: PlannedChanges | undefined
  /** Places of the reels that it is locked to: each feeds a part of it. */
  readonly locks: readonly number[]
  /** Places of the reels that may serve it or a part of it. */
  readonly reels: readonly number[]
  /** For each printer of the copy, by place, its whole piece. */
  readonly whole: ReadonlyMap<number, Piece>
}

export interface CompiledCopy {
  readonly place: number
  readonly id: string
  readonly tasks: readonly CompiledTask[]
  /** Places of the printers that may do it. */
  readonly printers: readonly number[]
  readonly importance: number
  readonly due_h: number | null
  readonly duration_h: number | null
}

/** A slate with ids looked up and rules worked out. */
export interface CompiledSlate {
  readonly confidence: number
  readonly useful_g: number
  readonly copies: readonly CompiledCopy[]
  readonly tasks: readonly CompiledTask[]
  readonly reels: readonly MatchReel[]
  readonly printers: readonly MatchPrinter[]
  /** The piece of a task between two of its nodes that a reel may serve, all by place; always the same one. */
  readonly pieceOf: (task: number, printer: number, from: number, to: number, reel: number) => Piece
  /** Every piece of a task, by its place, that some plan may have: of many layers, very many. */
  readonly piecesOf: (task: number) => readonly Piece[]
  /** The earlier choices of a task, by its place; of a task that had none, undefined. */
  readonly earlier: ReadonlyMap<
    number,
    readonly { readonly reel: number; readonly printer: number }[]
  >
  /**
   * Hours from now until each printer is free, by place, and behind them each reel: one that is on a printer
   * at first is free when that is.
   */
  readonly free_h: Float64Array
  /** What prints that run take of each reel, by place; it is nobody's copy, and can not be moved. */
  readonly running: ReadonlyMap<number, readonly RunningPiece[]>
}

/**
 * Looks up every id and checks what is asked.
 *
 * @throws DomainError `id_twice`, `unknown_id`, `no_draw`, `no_layers`, `locks_contradict`, and as `checkSlate`
 */
export const compileSlate = (slate: MatchSlate): CompiledSlate => {
  const { copies, confidence = 0.95, useful_g = usualUsefulMass } = slate
  checkSlate(slate)
  const copyAt = placesOf(copies, 'copies')
  const reelAt = placesOf(slate.reels, 'reels')
  const printerAt = placesOf(slate.printers, 'printers')
  const printers = eachReelOnOne(slate.printers)
  const running = runningOf(printers, reelAt)
  const reels = slate.reels.map((reel, place) =>
    running.has(place) ? { ...reel, sealed: false } : reel,
  )
  const locksOf = new Map<string, Set<number>>()
  for (const { copy, tool, reel } of slate.locks ?? []) {
    placeOf(copyAt, copy, 'copy')
    const locks = locksOf.get(`${copy} ${tool}`) ?? new Set()
    locksOf.set(`${copy} ${tool}`, locks.add(placeOf(reelAt, reel, 'reel')))
  }
  const barred = new Set<string>()
  for (const { copy, reel } of slate.barred ?? []) {
    placeOf(reelAt, reel, 'reel')
    if (copy !== undefined) placeOf(copyAt, copy, 'copy')
    barred.add(copy === undefined ? reel : `${copy} ${reel}`)
  }
  const allowed = (copy: string, fits: readonly string[]): readonly number[] => {
    const places = fits
      .filter((reel) => !barred.has(reel) && !barred.has(`${copy} ${reel}`))
      .map((reel) => placeOf(reelAt, reel, 'reel'))
    return [...new Set(places)]
  }

  const tasks: CompiledTask[] = []
  const pieceOf = pieceMaker(printers, confidence, tasks)
  const compiled = copies.map((copy, place): CompiledCopy => {
    const { id, importance = 0, due_h = null, duration_h = null, changes } = copy
    const onPrinters = [
      ...new Set(copy.printers.map((each) => placeOf(printerAt, each, 'printer'))),
    ]
    const mostChanges = changes ? (changes.most ?? 1) : 0
    for (const { tool, draw, fits } of copy.tasks) {
      const locks = [...(locksOf.get(`${id} ${tool}`) ?? [])]
      if (locks.length > mostChanges + 1) {
        throw new DomainError(
          'locks_contradict',
          `${id}, tool ${tool}, is locked to ${locks.length} reels and has room for ${mostChanges + 1}`,
        )
      }
      const nodes = changeNodes(draw, changes, `${id}, tool ${tool}`)
      const fitting = allowed(id, fits)
      const whole = new Map<number, Piece>()
      const task: CompiledTask = {
        place: tasks.length,
        copy: place,
        tool,
        tools: copy.tasks.length,
        draw,
        nodes,
        cuts: nodes.slice(1, -1).map((_, i) => ({ first: i + 1, last: i + 1 })),
        mostChanges,
        changes,
        locks,
        reels:
          locks.length > mostChanges ? fitting.filter((reel) => locks.includes(reel)) : fitting,
        whole,
      }
      tasks.push(task)
      for (const printer of onPrinters) {
        whole.set(printer, pieceOf(task.place, printer, 0, nodes.length - 1, -1))
      }
    }
    const own = tasks.slice(-copy.tasks.length)
    return { place, id, tasks: own, printers: onPrinters, importance, due_h, duration_h }
  })
  return {
    confidence,
    useful_g,
    copies: compiled,
    tasks,
    reels,
    printers,
    pieceOf,
    piecesOf: (place) => {
      const task = tasks[place]!
      const found = new Set<Piece>()
      for (const printer of task.whole.keys()) {
        for (const [from, to] of segments(task.nodes.length - 1, task.mostChanges)) {
          for (const [reel] of servingParts(task)) {
            found.add(pieceOf(place, printer, from, to, reel!))
          }
        }
      }
      return [...found]
    },
    earlier: earlierOf(slate, tasks, compiled, copyAt, reelAt, printerAt),
    free_h: freeOf(printers, reels, reelAt),
    running,
  }
}

/** What runs on a printer is on it, and a reel told for several tools or printers on the last of them only. */
const eachReelOnOne = (printers: readonly MatchPrinter[]): readonly MatchPrinter[] => {
  const on = new Map<string, string>()
  const told = printers.flatMap(({ id, loaded = {} }) =>
    Object.entries(loaded).map(([tool, reel]) => ({ at: `${tool} ${id}`, reel })),
  )
  const runs = printers.flatMap(({ id, running = [] }) =>
    running.filter(isOn).map(({ tool, reel }) => ({ at: `${tool} ${id}`, reel })),
  )
  for (const { at, reel } of [...told, ...runs]) {
    for (const [other, there] of on) if (there === reel) on.delete(other)
    on.set(at, reel)
  }
  return printers.map((printer) => {
    const { id, loaded = {}, running = [] } = printer
    const tools = [...Object.keys(loaded).map(Number), ...running.map(({ tool }) => tool)]
    const own = tools.flatMap((tool) => {
      const reel = on.get(`${tool} ${id}`)
      return reel === undefined ? [] : [[tool, reel] as const]
    })
    return { ...printer, loaded: Object.fromEntries(own) }
  })
}

/** A reel that another one took over from has come off. */
const isOn = ({ untilLayer }: RunningDraw): boolean => untilLayer === undefined

const runningOf = (
  printers: readonly MatchPrinter[],
  reelAt: ReadonlyMap<string, number>,
): CompiledSlate['running'] => {
  const found = new Map<number, RunningPiece[]>()
  for (const [printer, { id, running = [] }] of printers.entries()) {
    for (const runs of running) {
      const { tool, reel, draw, afterLayer = 0, untilLayer = null } = runs
      const place = reelAt.get(reel)
      if (place === undefined) continue
      const nodes = partNodes(draw, runs, `what runs on ${id}`)
      const piece: RunningPiece = {
        place: -1,
        copy: -1,
        task: -1,
        tool,
        printer,
        from: 0,
        to: 1,
        lengths: between(nodes, 0, 1),
        change_mm: afterLayer === 0 ? null : changeOn(printers[printer]!),
        confidence: 0,
        reels: [place],
        afterLayer,
        untilLayer,
      }
      found.set(place, [...(found.get(place) ?? []), piece])
    }
  }
  return found
}

const freeOf = (
  printers: readonly MatchPrinter[],
  reels: readonly MatchReel[],
  reelAt: ReadonlyMap<string, number>,
): Float64Array => {
  const free = new Float64Array(printers.length + reels.length)
  for (const [printer, { free_h = 0, loaded = {}, running = [] }] of printers.entries()) {
    free[printer] = free_h
    const there = running.filter(isOn).map(({ reel }) => reel)
    for (const id of new Set([...Object.values(loaded), ...there])) {
      const reel = reelAt.get(id)
      if (reel === undefined) continue
      const at = printers.length + reel
      free[at] = Math.max(free[at]!, free_h)
    }
  }
  return free
}

/** Pairs of so many nodes between which a piece may lie when so many changes are allowed: the whole first. */
export const segments = (
  last: number,
  mostChanges: number,
): readonly (readonly [from: number, to: number])[] => {
  const found: (readonly [number, number])[] = [[0, last]]
  if (mostChanges === 0) return found
  for (let from = 0; from < last; from++) {
    // With one change a part that does not begin the print ends it.
    for (let to = from > 0 && mostChanges === 1 ? last : from + 1; to <= last; to++) {
      if (from > 0 || to < last) found.push([from, to])
    }
  }
  return found
}

/** Whether a piece is a whole print. */
export const isWhole = ({ tasks }: CompiledSlate, { task, from, to }: Piece): boolean =>
  from === 0 && to === tasks[task]!.nodes.length - 1

/** Places of the reels that may serve parts of a task: those it is not locked to and those it is, unless there are none. */
export const servingParts = ({ reels, locks }: CompiledTask): readonly (readonly number[])[] =>
  [
    reels.filter((reel) => !locks.includes(reel)),
    reels.filter((reel) => locks.includes(reel)),
  ].filter((some) => some.length > 0)

/** Makes the pieces of tasks, each once: of a print of many layers there may be very many. */
const pieceMaker = (
  printers: readonly MatchPrinter[],
  confidence: number,
  tasks: readonly CompiledTask[],
): CompiledSlate['pieceOf'] => {
  const made = new Map<string, Piece>()
  return (task, printer, from, to, reel) => {
    const { copy, tool, tools, nodes, mostChanges, reels, locks } = tasks[task]!
    const isPart = from > 0 || to < nodes.length - 1
    const isLocked = isPart && locks.includes(reel)
    const key = `${task} ${printer} ${from} ${to} ${isLocked}`
    const known = made.get(key)
    if (known) return known
    const piece: Piece = {
      place: made.size,
      copy,
      task,
      tool,
      printer,
      from,
      to,
      lengths: between(nodes, from, to),
      change_mm: from > 0 ? changeOn(printers[printer]!) : null,
      // Whichever way the print is cut, the product over its reels is at least the confidence.
      confidence: confidence ** (1 / (tools * (isPart ? mostChanges + 1 : 1))),
      reels: reels.filter((each) =>
        isPart ? locks.includes(each) === isLocked : locks.every((lock) => lock === each),
      ),
    }
    made.set(key, piece)
    return piece
  }
}

const between = (nodes: readonly ChangeNode[], from: number, to: number): Piece['lengths'] =>
  nodes[to]!.drawn.map(({ weight, length_mm }, i) => ({
    weight,
    length_mm: Math.max(0, length_mm - nodes[from]!.drawn[i]!.length_mm),
  }))

const earlierOf = (
  { earlier = [] }: MatchSlate,
  tasks: readonly CompiledTask[],
  copies: readonly CompiledCopy[],
  copyAt: ReadonlyMap<string, number>,
  reelAt: ReadonlyMap<string, number>,
  printerAt: ReadonlyMap<string, number>,
): CompiledSlate['earlier'] => {
  const found = new Map<number, { reel: number; printer: number }[]>()
  for (const { copy, tool, reel, printer } of earlier) {
    // What has left the slate or the shelf since then can not be kept.
    const place = copyAt.get(copy)
    const task = place === undefined ? undefined : copies[place]!.tasks.find((t) => t.tool === tool)
    if (!task) continue
    const list = found.get(task.place) ?? []
    list.push({ reel: reelAt.get(reel) ?? -1, printer: printerAt.get(printer) ?? -1 })
    found.set(tasks[task.place]!.place, list)
  }
  return found
}

const placesOf = (
  rows: readonly { readonly id: string }[],
  what: string,
): ReadonlyMap<string, number> => {
  const at = new Map(rows.map(({ id }, place) => [id, place]))
  if (at.size < rows.length) throw new DomainError('id_twice', `two ${what} share an id`)
  return at
}

const placeOf = (at: ReadonlyMap<string, number>, id: string, what: string): number => {
  const place = at.get(id)
  if (place === undefined) throw new DomainError('unknown_id', `there is no ${what} ${id}`)
  return place
}

/** The tail of each printer, mm. */
export const tailsOf = (
  printers: readonly MatchPrinter[],
): Readonly<Record<string, Measured<Millimetres>>> =>
  Object.fromEntries(printers.map(({ id, tail_mm }) => [id, tail_mm ?? unknownPrinter.tail_mm]))
