import type { Choice, Choices, Serving } from './choice.ts'
import type { CompiledCopy, CompiledSlate, CompiledTask, Piece } from './compiled-slate.ts'
import type { Load, LoadJudge } from './load-judge.ts'
import { type LoadCost, loadCost } from './plan-value.ts'

/** How a piece might be served, and what that is worth. */
interface Offer {
  readonly servings: readonly Serving[]
  /** Changes, newly opened reels, choices that differ, stubs (g), what is left (g); less is better. */
  readonly worth: readonly number[]
}

/**
 * A plan put together one copy after the other, the most important first, of those the soonest due and
 * of those the largest: each goes on the reel that it leaves least on, an opened one before a sealed one.
 * Every load of it is safe. It is where the search begins, and what is left of it where there is no time.
 */
export const firstPlan = (slate: CompiledSlate, judges: readonly LoadJudge[]): Choices => {
  const loads: Load[] = slate.reels.map(() => [])
  const choices: (Choice | null)[] = slate.copies.map(() => null)
  for (const copy of inOrder(slate.copies)) {
    const choice = bestChoice(slate, judges, loads, copy)
    if (!choice) continue
    choices[copy.place] = choice
    for (const { piece, reel } of choice.servings) loads[reel] = [...loads[reel]!, piece]
  }
  return choices
}

const inOrder = (copies: readonly CompiledCopy[]): readonly CompiledCopy[] =>
  copies.toSorted(
    (a, b) =>
      b.importance - a.importance ||
      compare(a.due_h ?? Infinity, b.due_h ?? Infinity) ||
      sizeOf(b) - sizeOf(a),
  )

/** What its tools draw together, mm. */
const sizeOf = ({ tasks }: CompiledCopy): number =>
  tasks.reduce((sum, { nodes }) => sum + nodes.at(-1)!.drawn[0]!.length_mm, 0)

const compare = (a: number, b: number): number => (a === b ? 0 : a < b ? -1 : 1)

/** The best way to serve a copy beside the loads there are; null where there is none. */
export const bestChoice = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  loads: readonly Load[],
  copy: CompiledCopy,
): Choice | null => {
  let best: (Choice & { readonly worth: readonly number[] }) | null = null
  for (const printer of copy.printers) {
    const servings: Serving[] = []
    const worth = [0, 0, 0, 0, 0]
    for (const task of copy.tasks) {
      const taken = new Set(servings.map(({ reel }) => reel))
      const offer = bestOffer(slate, judges, loads, task, printer, taken)
      if (!offer) break
      servings.push(...offer.servings)
      for (const [i, part] of offer.worth.entries()) worth[i]! += part
    }
    const isServed = copy.tasks.every(({ place }) =>
      servings.some(({ piece }) => piece.task === place),
    )
    if (isServed && (!best || isLess(worth, best.worth))) best = { printer, servings, worth }
  }
  return best && { printer: best.printer, servings: best.servings }
}

const bestOffer = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  loads: readonly Load[],
  task: CompiledTask,
  printer: number,
  taken: ReadonlySet<number>,
): Offer | null => {
  const whole = task.whole.get(printer)!
  const offers = task.reels
    .filter((reel) => !taken.has(reel) && judges[reel]!.isSafe([...loads[reel]!, whole]))
    .map((reel) => offerOf(slate, judges, loads, [{ piece: whole, reel }]))
  if (offers.length === 0 && task.mostChanges > 0) {
    offers.push(...changedOffers(slate, judges, loads, task, printer, taken))
  }
  return offers.reduce<Offer | null>(
    (best, offer) => (best && !isLess(offer.worth, best.worth) ? best : offer),
    null,
  )
}

/** Every pair of reels with the change as late as is safe, and from there on once more. */
const changedOffers = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  loads: readonly Load[],
  task: CompiledTask,
  printer: number,
  taken: ReadonlySet<number>,
): readonly Offer[] => {
  const parts = slate
    .piecesOf(task.place)
    .filter((piece) => piece.place >= slate.wholes && piece.printer === printer)
  const last = task.nodes.length - 1
  const found: Offer[] = []
  const from = (node: number, servings: readonly Serving[]): void => {
    if (servings.length > task.mostChanges) return
    for (const reel of task.reels) {
      if (taken.has(reel) || servings.some((one) => one.reel === reel)) continue
      const safe = (piece: Piece): boolean => judges[reel]!.isSafe([...loads[reel]!, piece])
      const end = parts.find((piece) => piece.from === node && piece.to === last)
      if (end && node > 0 && safe(end)) {
        found.push(offerOf(slate, judges, loads, [...servings, { piece: end, reel }]))
        continue
      }
      const furthest = parts.findLast(
        (piece) => piece.from === node && piece.to < last && safe(piece),
      )
      if (furthest) from(furthest.to, [...servings, { piece: furthest, reel }])
    }
  }
  from(0, [])
  return found
}

const offerOf = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  loads: readonly Load[],
  servings: readonly Serving[],
): Offer => {
  const worth = [0, 0, 0, 0, 0]
  for (const { piece, reel } of servings) {
    const judge = judges[reel]!
    const load = [...loads[reel]!, piece]
    const before = loadCost(slate, judge, reel, loads[reel]!)
    const after = loadCost(slate, judge, reel, load)
    const more = (part: keyof LoadCost): number => after[part] - before[part]
    for (const [i, part] of (['changes', 'opened', 'different', 'stubs'] as const).entries()) {
      worth[i]! += more(part)
    }
    worth[4]! += judge.left(load).value
  }
  return { servings, worth }
}

const isLess = (a: readonly number[], b: readonly number[]): boolean => {
  const first = a.findIndex((value, i) => value !== b[i])
  return first >= 0 && a[first]! < b[first]!
}
