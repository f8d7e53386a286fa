import type { Serving } from './choice.ts'
import {
  type CompiledSlate,
  type CompiledTask,
  type Cut,
  isWhole,
  type Piece,
  segments,
  servingParts,
} from './compiled-slate.ts'
import type { LoadMaker } from './reel-load.ts'

/** So many cuts of a task are looked at at once; of a print of more layer ends only some. */
export const mostCuts = 12

/** A slate whose tasks are changed at these cuts. */
export const withCuts = (
  slate: CompiledSlate,
  cutsOf: (task: CompiledTask) => readonly Cut[],
): CompiledSlate => {
  const tasks = slate.tasks.map((task): CompiledTask => ({ ...task, cuts: cutsOf(task) }))
  const copies = slate.copies.map((copy) => ({
    ...copy,
    tasks: copy.tasks.map(({ place }) => tasks[place]!),
  }))
  return { ...slate, tasks, copies }
}

/** Whether there are more places for a change than are looked at at once. */
export const isThinned = ({ mostChanges, nodes }: CompiledTask): boolean =>
  mostChanges > 0 && nodes.length - 2 > mostCuts

/** Cuts at just these nodes, rising. */
export const cutsAt = (nodes: readonly number[]): readonly Cut[] =>
  nodes.map((node) => ({ first: node, last: node }))

/** Cuts that have every inner node of a task in them, each but the last ending with one of these, rising. */
export const cutsUntil = ({ nodes }: CompiledTask, ends: readonly number[]): readonly Cut[] => {
  const inner = nodes.length - 2
  const all = [...ends.filter((end) => end < inner), inner]
  return all.map((last, i) => ({ first: i === 0 ? 1 : all[i - 1]! + 1, last }))
}

/**
 * Where a change of a print of many layers is first looked for: where each reel would end that began the print
 * and did nothing else, and with several changes those after it.
 */
export const likelyCuts = (
  slate: CompiledSlate,
  maker: LoadMaker,
  task: CompiledTask,
): readonly number[] => {
  let from: readonly number[] = [0]
  const found = new Set<number>()
  for (let change = 0; change < task.mostChanges && from.length > 0; change++) {
    const ends = new Set(from.flatMap((node) => endsOf(slate, maker, task, node)))
    from = spread(
      task,
      [...ends].filter((end) => !found.has(end)),
      mostCuts,
    )
    for (const end of from) found.add(end)
  }
  return spread(task, [...found], mostCuts)
}

/** Some nodes, and even steps of the draw up to as many as are looked at at once. */
export const withEven = (task: CompiledTask, nodes: readonly number[]): readonly number[] => {
  const all = Array.from({ length: task.nodes.length - 2 }, (_, i) => i + 1)
  return rising([...nodes, ...spread(task, all, mostCuts - nodes.length)])
}

/** The last inner nodes up to which the reels of a task can do it from a node on if they do nothing else. */
const endsOf = (
  { pieceOf }: CompiledSlate,
  maker: LoadMaker,
  task: CompiledTask,
  from: number,
): readonly number[] => {
  const alike = new Map(task.reels.map((reel) => [maker.alike[reel]!, reel]))
  return [...task.whole.keys()].flatMap((printer) =>
    [...alike.values()].flatMap((reel) => {
      const nothing = maker.made(reel, [])
      const end = lastWhere(from + 1, task.nodes.length - 2, (to) =>
        maker.grown(reel, nothing, pieceOf(task.place, printer, from, to, reel)),
      )
      return end ?? []
    }),
  )
}

/** The last whole number of some at which something holds that holds up to there; null for none. */
export const lastWhere = (
  first: number,
  last: number,
  holds: (at: number) => unknown,
): number | null => {
  let [low, high] = [first - 1, last]
  while (low < high) {
    const middle = Math.ceil((low + high) / 2)
    if (holds(middle)) low = middle
    else high = middle - 1
  }
  return low < first ? null : low
}

/** At most so many of some nodes, those nearest to even steps of the draw. */
const spread = (task: CompiledTask, some: readonly number[], most: number): readonly number[] => {
  if (some.length <= most) return rising(some)
  const drawn = (node: number): number => task.nodes[node]!.drawn[0]!.length_mm
  const picked = new Set<number>()
  for (let step = 1; step <= most; step++) {
    const wanted = (drawn(task.nodes.length - 1) * step) / (most + 1)
    const off = (node: number): number => Math.abs(drawn(node) - wanted)
    picked.add(some.reduce((best, node) => (off(node) < off(best) ? node : best)))
  }
  return rising([...picked])
}

export const rising = (nodes: Iterable<number>): readonly number[] =>
  [...new Set(nodes)].toSorted((a, b) => a - b)

/** A piece as a problem has it. */
export interface ProblemPiece {
  /** Nodes of the problem. */
  readonly from: number
  readonly to: number
  /** What it is at least, and where cuts leave it open, at most. */
  readonly least: Piece
  readonly most: Piece
}

/**
 * The last of the nodes that a problem has of a task. The beginning is 0, then comes each cut, once for each
 * number of the reels that the task is locked to that may have come before it: such a reel leads from one number to
 * the next, any other stays, and the end is there with all of them only. As no reel feeds two parts of a print
 * their number says that each was there.
 */
export const lastNode = ({ cuts, locks, mostChanges }: CompiledTask, withParts: boolean): number =>
  withParts && mostChanges > 0 ? cuts.length * (locks.length + 1) + 1 : 1

/** The pieces of a task on a printer as a problem has them, the whole one first. */
export const problemPieces = (
  slate: CompiledSlate,
  task: CompiledTask,
  printer: number,
  withParts: boolean,
): readonly ProblemPiece[] => {
  const { place, nodes, cuts, locks, mostChanges } = task
  const whole = task.whole.get(printer)!
  const found: ProblemPiece[] = [
    { from: 0, to: lastNode(task, withParts), least: whole, most: whole },
  ]
  if (!withParts || mostChanges === 0) return found
  const last = cuts.length + 1
  const end = nodes.length - 1
  const [, ...parts] = segments(last, mostChanges)
  for (const [from, to] of parts) {
    const begun = from === 0 ? { first: 0, last: 0 } : cuts[from - 1]!
    const ended = to === last ? { first: end, last: end } : cuts[to - 1]!
    for (const [reel] of servingParts(task)) {
      const least = slate.pieceOf(place, printer, begun.last, ended.first, reel!)
      const most = slate.pieceOf(place, printer, begun.first, ended.last, reel!)
      for (let had = 0; had <= (from === 0 ? 0 : locks.length); had++) {
        const has = had + Number(locks.includes(reel!))
        if (has > locks.length || (to === last && has < locks.length)) continue
        found.push({ from: nodeAt(task, from, had), to: nodeAt(task, to, has), least, most })
      }
    }
  }
  return found
}

/** The node of a problem for a cut, counted from 1, with so many reels before it that the task is locked to. */
const nodeAt = ({ cuts, locks }: CompiledTask, cut: number, before: number): number =>
  cut === 0
    ? 0
    : cut > cuts.length
      ? cuts.length * (locks.length + 1) + 1
      : 1 + (cut - 1) * (locks.length + 1) + before

/** Between which nodes of a problem a serving lies, of those of a copy. */
export const nodesOf = (
  slate: CompiledSlate,
  servings: readonly Serving[],
  { piece, reel }: Serving,
  withParts: boolean,
): readonly [from: number, to: number] => {
  const task = slate.tasks[piece.task]!
  if (isWhole(slate, piece)) return [0, lastNode(task, withParts)]
  const had = servings.filter(
    (each) =>
      each.piece.task === piece.task &&
      each.piece.from < piece.from &&
      task.locks.includes(each.reel),
  ).length
  const has = had + Number(task.locks.includes(reel))
  const cutAt = (node: number): number =>
    node === 0
      ? 0
      : node === task.nodes.length - 1
        ? task.cuts.length + 1
        : task.cuts.findIndex(({ last }) => node <= last) + 1
  return [nodeAt(task, cutAt(piece.from), had), nodeAt(task, cutAt(piece.to), has)]
}
