import type { SeededRandom } from '../demo/seeded-random.ts'
import type { Choice } from '../src/match/choice.ts'
import { type CompiledSlate, compileSlate } from '../src/match/compiled-slate.ts'
import { type MatchPlan, type MatchSlate, matchSlate } from '../src/match/index.ts'
import { type Load, type LoadJudge, loadJudge } from '../src/match/load-judge.ts'
import { choicesOfPlan } from '../src/match/plan-choices.ts'
import { levelsOf, planValue } from '../src/match/plan-value.ts'
import { highsSolver } from '../src/solver/index.ts'
import { doubts, tail } from './invented-slate.ts'

/** What a way to choose comes to on one slate. */
export interface Chosen {
  readonly choices: readonly (Choice | null)[]
  readonly value: Readonly<Record<string, number>>
}

/** When a person takes a reel to be enough. */
type Enough = (judge: LoadJudge, load: Load) => boolean

/** By its mean: what is thought to be on it is not less than what it is asked for. */
const onAverage: Enough = (judge, load) => judge.left(load).value >= 0
/** By the verdict, at the confidence of the slate. */
const surely: Enough = (judge, load) => judge.isSafe(load)

/** The ways that a match is held against. */
export const rivals: readonly (readonly [name: string, choose: (slate: MatchSlate) => Chosen])[] = [
  ['the fullest reel, if enough on average', (slate) => byHand(slate, 'fullest', onAverage)],
  ['first fit, longest first, if enough on average', (slate) => byHand(slate, 'first', onAverage)],
  ['the fullest reel, if the verdict says enough', (slate) => byHand(slate, 'fullest', surely)],
  [
    'first fit, longest first, if the verdict says enough',
    (slate) => byHand(slate, 'first', surely),
  ],
]

/**
 * Chooses as one does by hand: an opened reel before a sealed one, no changes in mid-print. The fullest
 * reel is taken print by print as they stand on the slate; first fit goes from the longest print down and
 * takes the first reel on the shelf that does.
 */
const byHand = (asked: MatchSlate, which: 'fullest' | 'first', enough: Enough): Chosen => {
  const slate = compileSlate(asked)
  const judges = slate.reels.map((_, reel) => loadJudge(slate, reel))
  const loads: Load[] = slate.reels.map(() => [])
  const choices: (Choice | null)[] = slate.copies.map(() => null)
  const lengthOf = (copy: number): number =>
    slate.copies[copy]!.tasks.reduce((sum, task) => sum + task.nodes.at(-1)!.drawn[0]!.length_mm, 0)
  const order = slate.copies.map(({ place }) => place)
  if (which === 'first') order.sort((a, b) => lengthOf(b) - lengthOf(a))
  for (const copy of order) {
    const { tasks, printers } = slate.copies[copy]!
    const servings: Choice['servings'][number][] = []
    for (const task of tasks) {
      const piece = task.whole.get(printers[0]!)!
      const may = task.reels.filter(
        (reel) =>
          !servings.some((one) => one.reel === reel) &&
          enough(judges[reel]!, [...loads[reel]!, piece]),
      )
      const isNew = (reel: number): boolean =>
        slate.reels[reel]!.sealed && loads[reel]!.length === 0
      const fullness = (reel: number): number => judges[reel]!.left(loads[reel]!).value
      const [reel] = may.toSorted(
        (a, b) =>
          Number(isNew(a)) - Number(isNew(b)) ||
          (which === 'fullest' ? fullness(b) - fullness(a) : a - b),
      )
      if (reel !== undefined) servings.push({ piece, reel })
    }
    if (servings.length < tasks.length) continue
    choices[copy] = { printer: printers[0]!, servings }
    for (const { piece, reel } of servings) loads[reel] = [...loads[reel]!, piece]
  }
  return { choices, value: valueOf(slate, judges, choices) }
}

const valueOf = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  choices: Chosen['choices'],
): Chosen['value'] => {
  const found: Record<string, number> = {}
  const values = planValue(slate, judges, choices)
  for (const [i, { level }] of levelsOf(slate).entries()) {
    found[level] = (found[level] ?? 0) + values[i]!
  }
  return found
}

/** Time that this process has had of a processor, ms: what others do on the machine is not in it. */
export const clock = (): number => {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}

/** The match, in a time of the processor. */
export const matched = async (
  asked: MatchSlate,
  limit_ms: number,
): Promise<Chosen & { readonly plan: MatchPlan }> => {
  const plan = await matchSlate(asked, { solver: highsSolver(), clock, limit_ms })
  const slate = compileSlate(asked)
  const judges = slate.reels.map((_, reel) => loadJudge(slate, reel))
  const choices = choicesOfPlan(slate, plan)
  return { choices, value: valueOf(slate, judges, choices), plan }
}

/**
 * Prints a plan in one world after another, each drawn from what was told, and counts prints that ran out.
 * Prints of one reel are done in the order of the slate; what is short for one is short for all after it.
 */
export const ranOut = (
  asked: MatchSlate,
  { choices }: Chosen,
  random: SeededRandom,
  worlds: number,
): { readonly prints: number; readonly out: number } => {
  const slate = compileSlate(asked)
  let prints = 0
  let out = 0
  for (let world = 0; world < worlds; world++) {
    const feeds = slate.printers.map(() => random.normal(doubts.feed.value, doubts.feed.u))
    const starts = slate.printers.map(() => random.normal(doubts.start.value, doubts.start.u))
    const reels = slate.reels.map(({ belief: { joint } }) => ({
      left: Math.max(0, random.normal(joint.mean[0], Math.sqrt(joint.covariance[0]!))),
      perMetre: random.normal(doubts.linearDensity.value, doubts.linearDensity.u),
    }))
    for (const choice of choices) {
      if (!choice) continue
      prints++
      let isOut = false
      for (const { piece, reel } of choice.servings) {
        const { printer, lengths, change_mm } = piece
        const feed = random.normal(feeds[printer], doubts.ownFeed * doubts.feed.value)
        const begun = change_mm ? random.normal(change_mm.value, change_mm.u) : starts[printer]!
        const metres = (feed * lengths[0]!.length_mm + begun) / 1000
        const { perMetre } = reels[reel]!
        reels[reel]!.left -= perMetre * metres
        isOut ||= reels[reel]!.left < (perMetre * random.normal(tail.value, tail.u)) / 1000
      }
      out += Number(isOut)
    }
  }
  return { prints, out }
}
