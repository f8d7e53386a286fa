import type { CatalogueRowJson, MeasuredJson, PriorsRowJson } from '../contract/index.ts'
import {
  defaultShelfPriors,
  type Prior,
  type SpreadName,
  spreadOfPrior,
} from '../estimate/index.ts'
import { editPriors, priorKeys } from '../ledger/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import type { HandedIn } from './handed-in.ts'
import { overShelf } from './over-shelf.ts'
import { type Recorded, record } from './record.ts'
import { type ShelfView, shelfView } from './shelf-view.ts'

/** A prior: what stands by default, and what this shelf says instead. */
export interface PriorListed {
  readonly key: string
  readonly prior: Prior
  readonly own?: MeasuredJson
  /** Where it is a spread: what this shelf teaches of it. */
  readonly learnt?: LearntSpread
}

/** How far a spread is from what is believed beforehand. */
export interface LearntSpread {
  /** How many times as wide it is taken, > 0. */
  readonly factor: number
  /** False where no fact tells of it: then it is only taken wider for being a guess. */
  readonly told: boolean
}

const rowOf = (rows: readonly CatalogueRowJson[]): PriorsRowJson | undefined =>
  rows.find((row) => row.kind === 'priors')

/** Every prior, with its source. Of facts that do not fit together nothing is learnt. */
export const listPriors = async (handed: HandedIn): Promise<Outcome<readonly PriorListed[]>> => {
  const own = rowOf(await handed.store.catalogue())?.priors ?? {}
  const view = await shelfView(handed.store)
  return accept(
    priorKeys().map(({ key, prior }) => {
      const learnt = view.ok ? learntOf(key, view.value) : undefined
      return Object.assign(
        { key, prior },
        own[key] !== undefined && { own: own[key] },
        learnt && { learnt },
      )
    }),
  )
}

const learntOf = (
  key: string,
  { spreads, shelf: { priors: base } }: ShelfView,
): LearntSpread | undefined => {
  const name = (spreadOfPrior as Readonly<Record<string, SpreadName>>)[key]
  if (name === undefined) return undefined
  const told = spreads.told[name]
  // That of a printer has that of a single print in it, which has a factor of its own.
  if (name !== 'feedFactor') return { factor: spreads.factors[name], told }
  return { factor: spreads.priors.feedFactor.u / base.feedFactor.u, told }
}

/**
 * Says what this shelf believes beforehand; without a value the default holds again.
 *
 * @returns `prior_unknown`, `prior_impossible`, and as `record`
 */
export const setPrior = (
  handed: HandedIn,
  key: string,
  value: MeasuredJson | undefined,
): Promise<Outcome<Recorded>> => overShelf(handed, (view) => setInView(handed, view, key, value))

const setInView = async (
  handed: HandedIn,
  view: ShelfView,
  key: string,
  value: MeasuredJson | undefined,
): Promise<Outcome<Recorded>> => {
  const before = rowOf(view.rows)
  const { [key]: _before, ...others } = before?.priors ?? {}
  const priors = value === undefined ? others : { ...others, [key]: value }
  // A key that nobody knows is refused even where it is only taken back.
  const edited = editPriors(defaultShelfPriors, { ...priors, [key]: value ?? defaultOf(key) })
  if (!edited.ok) return edited
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
  return record(handed, view, { facts: [], rows: [row] }, [noteOf(key, value)])
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
