import type { MatchJson, PlanChoiceJson } from '../contract/index.ts'
import type { MatchPlan, MatchSlate } from '../match/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import type { HandedIn } from './handed-in.ts'
import { keepPlan } from './keep-plan.ts'
import { type MatchAsked, type MatchQuestion, matchQuestion } from './match-question.ts'
import { remediesOf } from './match-remedies.ts'
import { matchToJson } from './match-to-json.ts'
import { printsOfSlate } from './prints-of-slate.ts'
import { printsRunning } from './running-on.ts'
import { runningOf } from './running-prints.ts'
import { shelfView } from './shelf-view.ts'
import { slateOf } from './slate-order.ts'
import { startedAsBusy } from './started-as-busy.ts'

/** How long a match may take, and whom it tells. */
export interface MatchRun {
  /** ms; 10 000 unless given. */
  readonly limit_ms?: number
  /** When it is aborted the best plan so far is returned. */
  readonly signal?: AbortSignal
  /** Share of the slate that is solved, 0 to 1. */
  readonly progress?: (done: number) => void
}

/** Runs a match: in a thread of its own, say, so that others are answered meanwhile. */
export type MatchEngine = (slate: MatchSlate, run: MatchRun) => Promise<MatchPlan>

/** An engine with what it is told. */
export type MatchRunner = (slate: MatchSlate) => Promise<MatchPlan>

/** What a match does besides. */
export interface MatchAround {
  /** Keeps the plan, so that the next differs from it as little as it can. */
  readonly keep?: boolean
  /** That of the run: once it is aborted no remedies are looked for. */
  readonly signal?: AbortSignal
}

/**
 * Which reel for which print, over the whole slate.
 *
 * @returns as `printsRunning`, `matchQuestion`, and where it is kept as `record`
 */
export const matchShelf = async (
  handed: HandedIn,
  asked: MatchAsked,
  run: MatchRunner,
  { keep = false, signal }: MatchAround = {},
): Promise<Outcome<MatchJson>> => {
  const view = await shelfView(handed.store)
  if (!view.ok) return view
  const told = await printsRunning(handed.store, view.value, asked.busy)
  if (!told.ok) return told
  const rows = slateOf(view.value.rows)
  const running = told.value.flatMap(({ print }) => (print === undefined ? [] : [{ print }]))
  const started = runningOf(view.value.rows, view.value.facts)
  const prints = await printsOfSlate(handed.store, [...rows, ...running, ...started])
  const recorded = startedAsBusy(view.value, prints, started, told.value)
  const busy = [...told.value, ...recorded.busy]
  const notes = recorded.notes
  const question = matchQuestion(view.value, prints, { ...asked, busy, notes }, handed.now())
  if (!question.ok) return question
  const plan = await run(question.value.slate)
  const remedies = remediesOf(
    view.value,
    question.value,
    plan,
    () => plan.ended === 'cancelled' || signal?.aborted === true,
  )
  if (keep) {
    const kept = await keepPlan(handed, choicesOf(question.value, plan))
    if (!kept.ok) return kept
  }
  return accept(matchToJson(view.value, question.value, plan, remedies, keep))
}

const choicesOf = (
  { copies, reels }: MatchQuestion,
  { served }: MatchPlan,
): readonly PlanChoiceJson[] =>
  served.flatMap(({ duties }) =>
    duties
      // What is imagined can not be kept to.
      .filter(({ reel }) => reels.get(reel)?.card !== undefined)
      // oxlint-disable-next-line oxc/no-map-spread -- a choice is small, and few
      .map(({ copy: id, tool, reel, printer, afterLayer }) => {
        const { row: waiting, copy } = copies.get(id)!
        const choice = { waiting: waiting.id, copy, tool, reel, printer }
        return afterLayer === 0 ? choice : { ...choice, after_layer: afterLayer }
      }),
  )
