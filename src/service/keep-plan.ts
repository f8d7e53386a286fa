import type { PlanChoiceJson, PlanJson, PlanRowJson } from '../contract/index.ts'
import type { Outcome } from '../units/index.ts'
import { changedAfter } from './catalogue-rows.ts'
import type { HandedIn } from './handed-in.ts'
import { overShelf } from './over-shelf.ts'
import { type Recorded, record } from './record.ts'

/**
 * Keeps a plan: the next match differs from it as little as it can.
 *
 * @returns as `record`
 */
export const keepPlan = (
  handed: HandedIn,
  choices: readonly PlanChoiceJson[],
): Promise<Outcome<Recorded>> =>
  overShelf(handed, (view) => {
    const before = view.rows.find((row) => row.kind === 'plan')
    const now = handed.now()
    const changed_at =
      before === undefined ? new Date(now).toISOString() : changedAfter(before, now)
    const row: PlanRowJson = { kind: 'plan', id: 'plan', changed_at, choices }
    return record(handed, view, { facts: [], rows: [row] })
  })

/** The plan that was kept last. */
export const keptPlan = async ({ store }: Pick<HandedIn, 'store'>): Promise<PlanJson> => {
  const row = (await store.catalogue()).find(({ kind }) => kind === 'plan')
  return row?.kind === 'plan'
    ? { choices: row.choices, kept_at: row.changed_at }
    : { choices: [], kept_at: null }
}
