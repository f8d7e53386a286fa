import { lastWhere } from './change-cuts.ts'
import { type Choice, type Choices, loadsOf, type Serving } from './choice.ts'
import type { CompiledSlate, CompiledTask } from './compiled-slate.ts'
import type { LoadMaker, ReelLoad } from './reel-load.ts'

/** What came of planning the changes that choices leave open. */
export interface RealChoices {
  /** Null where no way was found. */
  readonly choices: Choices | null
  /** Of each task, by its place, nodes beyond which a reel could not go, or the next could not begin sooner. */
  readonly ends: ReadonlyMap<number, readonly number[]>
}

/** The nodes at which a task is changed. */
export const changedNodes = (choices: Choices, { place, copy }: CompiledTask): readonly number[] =>
  (choices[copy]?.servings ?? []).flatMap(({ piece: { task, from } }) =>
    task === place && from > 0 ? [from] : [],
  )

/**
 * Plans the changes that choices leave open, with the same reels: one task after the other, each change as late as
 * its reels allow, or as soon.
 */
export const realChoices = (slate: CompiledSlate, maker: LoadMaker, open: Choices): RealChoices => {
  const ends = new Map<number, number[]>()
  if (isReal(open)) return { choices: open, ends }
  const tasks = slate.tasks.filter((task) => changedNodes(open, task).length > 0)
  for (const { place } of tasks) ends.set(place, [])
  for (const order of [tasks, tasks.toReversed()]) {
    const found = [true, false].map((late) => planned(slate, maker, open, order, late, ends))
    const choices = found.find((each) => each !== null)
    if (choices) return { choices, ends }
  }
  return { choices: null, ends }
}

/** Whether choices leave no change open. */
export const isReal = (choices: Choices): boolean =>
  choices.every((choice) => !choice || !hasGap(choice))

const hasGap = ({ servings }: Choice): boolean =>
  servings.some(({ piece }, i) => piece.from > 0 && piece.from !== servings[i - 1]!.piece.to)

const planned = (
  slate: CompiledSlate,
  maker: LoadMaker,
  open: Choices,
  tasks: readonly CompiledTask[],
  isLate: boolean,
  ends: ReadonlyMap<number, number[]>,
): Choices | null => {
  const choices = [...open]
  const loads = loadsOf(open, slate.reels.length).map((load, reel) => maker.made(reel, load))
  let isWhole = true
  for (const task of tasks) {
    const choice = choices[task.copy]!
    const own = choice.servings.filter(({ piece }) => piece.task === task.place)
    const without = new Map(
      own.map(({ piece, reel }) => [
        reel,
        maker.made(
          reel,
          loads[reel]!.load.filter((each) => each !== piece),
        ),
      ]),
    )
    const chain = chained(slate, maker, task, choice.printer, own, without, isLate)
    for (const { piece } of chain) ends.get(task.place)!.push(isLate ? piece.to : piece.from - 1)
    if (chain.length < own.length) {
      // Left open, so that the others find out what they can.
      isWhole = false
      continue
    }
    for (const { reel, piece } of chain) loads[reel] = maker.grown(reel, without.get(reel)!, piece)!
    const rest = choice.servings.filter(({ piece }) => piece.task !== task.place)
    const servings = [...rest, ...chain].toSorted((a, b) => a.piece.task - b.piece.task)
    choices[task.copy] = { ...choice, servings }
  }
  return isWhole ? choices : null
}

/** The same reels one after the other, as far as they can do it beside what else they do. */
const chained = (
  { pieceOf }: CompiledSlate,
  maker: LoadMaker,
  task: CompiledTask,
  printer: number,
  own: readonly Serving[],
  without: ReadonlyMap<number, ReelLoad>,
  isLate: boolean,
): readonly Serving[] => {
  const end = task.nodes.length - 1
  const serving = (reel: number, from: number, to: number): Serving | null => {
    const piece = pieceOf(task.place, printer, from, to, reel)
    return maker.grown(reel, without.get(reel)!, piece) && { piece, reel }
  }
  const chain: Serving[] = []
  const order = isLate ? own : own.toReversed()
  let at = isLate ? 0 : end
  for (const [i, { reel }] of order.entries()) {
    const by = (nodes: number): Serving | null =>
      isLate ? serving(reel, at, at + nodes) : serving(reel, at - nodes, at)
    const rest = isLate ? end - at : at
    const more = own.length - 1 - i
    // A layer end is left for each change that is still to come.
    const reach = more === 0 ? rest : lastWhere(1, rest - more, by)
    const done = reach === null ? null : by(reach)
    if (!done) break
    if (isLate) chain.push(done)
    else chain.unshift(done)
    at = isLate ? done.piece.to : done.piece.from
  }
  return chain
}
