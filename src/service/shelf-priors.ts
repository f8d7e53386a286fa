import type { MeasuredJson, PriorsRowJson } from '../contract/index.ts'
import { defaultShelfPriors, type Prior } from '../estimate/index.ts'
import { editPriors, priorKeys } from '../ledger/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import type { HandedIn } from './handed-in.ts'
import { type Recorded, record } from './record.ts'
import { shelfView } from './shelf-view.ts'

/** A prior: what stands by default, and what this shelf says instead. */
export interface PriorListed {
  readonly key: string
  readonly prior: Prior
  readonly own?: MeasuredJson
}

const rowOf = async ({ store }: HandedIn): Promise<PriorsRowJson | undefined> =>
  (await store.catalogue()).find((row) => row.kind === 'priors')

/** Every prior, with its source. */
export const listPriors = async (handed: HandedIn): Promise<Outcome<readonly PriorListed[]>> => {
  const own = (await rowOf(handed))?.priors ?? {}
  return accept(
    priorKeys().map(({ key, prior }) =>
      Object.assign({ key, prior }, own[key] !== undefined && { own: own[key] }),
    ),
  )
}

/**
 * Says what this shelf believes beforehand; without a value the default holds again.
 *
 * @returns `prior_unknown`, `prior_impossible`, and as `record`
 */
export const setPrior = async (
  handed: HandedIn,
  key: string,
  value: MeasuredJson | undefined,
): Promise<Outcome<Recorded>> => {
  const before = await rowOf(handed)
  const { [key]: _before, ...others } = before?.priors ?? {}
  const priors = value === undefined ? others : { ...others, [key]: value }
  // A key that nobody knows is refused even where it is only taken back.
  const edited = editPriors(defaultShelfPriors, { ...priors, [key]: value ?? defaultOf(key) })
  if (!edited.ok) return edited
  const view = await shelfView(handed.store)
  if (!view.ok) return view
  const moment = Math.max(
    handed.now(),
    before === undefined ? 0 : Date.parse(before.changed_at) + 1,
  )
  const row: PriorsRowJson = {
    kind: 'priors',
    id: 'priors',
    changed_at: new Date(moment).toISOString(),
    priors,
  }
  return record(handed, view.value, { facts: [], rows: [row] }, [noteOf(key, value)])
}

const noteOf = (key: string, value: MeasuredJson | undefined): string => {
  const prior = priorKeys().find((each) => each.key === key)?.prior
  const unit = prior === undefined || prior.unit === '1' ? '' : prior.unit
  const say = ({ value: mean, u }: MeasuredJson): string => `${mean} ± ${u} ${unit}`.trim()
  const usual = prior === undefined ? '' : say(prior)
  return value === undefined
    ? `${key} is believed to be ${usual} again, as usual.`
    : `${key} is believed to be ${say(value)} from now on; usual is ${usual}.`
}

const defaultOf = (key: string): MeasuredJson => {
  const found = priorKeys().find((each) => each.key === key)
  return found === undefined ? { value: 0, u: 0 } : { value: found.prior.value, u: found.prior.u }
}
