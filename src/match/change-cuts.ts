import type { CompiledSlate, CompiledTask, Cut, Piece } from './compiled-slate.ts'
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
        maker.grown(reel, nothing, pieceOf(task.place, printer, from, to)),
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

/** The last of the nodes that a problem has of a task: the beginning is 0, then come its cuts. */
export const lastNode = ({ cuts, mostChanges }: CompiledTask, withParts: boolean): number =>
  withParts && mostChanges > 0 ? cuts.length + 1 : 1

/** The least and the most that a piece between two nodes of a problem may be. */
export const piecesBetween = (
  { pieceOf }: CompiledSlate,
  { place, nodes, cuts }: CompiledTask,
  printer: number,
  [from, to]: readonly [number, number],
  lastOne: number,
): { readonly least: Piece; readonly most: Piece } => {
  const end = nodes.length - 1
  const begun = from === 0 ? { first: 0, last: 0 } : cuts[from - 1]!
  const ended = to === lastOne ? { first: end, last: end } : cuts[to - 1]!
  return {
    least: pieceOf(place, printer, begun.last, ended.first),
    most: pieceOf(place, printer, begun.first, ended.last),
  }
}

/** Between which nodes of a problem a piece lies. */
export const nodesOf = (
  { tasks }: CompiledSlate,
  { task, from, to }: Piece,
  withParts: boolean,
): readonly [from: number, to: number] => {
  const own = tasks[task]!
  const at = (node: number): number => own.cuts.findIndex(({ last }) => node <= last) + 1
  return [
    from === 0 ? 0 : at(from),
    to === own.nodes.length - 1 ? lastNode(own, withParts) : at(to),
  ]
}
