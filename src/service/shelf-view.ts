import type { CatalogueRowJson, FactJson } from '../contract/index.ts'
import {
  estimateShelf,
  type LearntSpreads,
  learnSpreads,
  reelsApart,
  type ShelfEstimate,
} from '../estimate/index.ts'
import {
  type LedgerShelf,
  type ReelCard,
  reelCards,
  type StandingFacts,
  shelfOf,
  standingFacts,
} from '../ledger/index.ts'
import type { Store } from '../store/index.ts'
import { accept, DomainError, type Outcome, refuse } from '../units/index.ts'

/** Everything a store holds but its prints, reckoned: what it says of each reel, make and printer. */
export interface ShelfView {
  /** Of the store, when this was made. */
  readonly revision: number
  readonly rows: readonly CatalogueRowJson[]
  /** In the order written down, those that do not hold included. */
  readonly facts: readonly FactJson[]
  readonly standing: StandingFacts
  /** What the estimate was given, and what it was not given and why. */
  readonly shelf: LedgerShelf
  /** How far reels, makes, printers and prints differ, as this shelf teaches. */
  readonly spreads: LearntSpreads
  /** Made with the priors of `spreads`: they, not those of `shelf`, are what the figures rest on. */
  readonly estimate: ShelfEstimate
  /** By the id of the reel. */
  readonly cards: ReadonlyMap<string, ReelCard>
}

/** Squared distance beyond which no spread that is only guessed too small is to blame: 20 deviations. */
const beyondSpreads = 400

/** The estimate without the facts of reels that contradict: from slips no spread is to be learnt. */
const trusted = (estimate: ShelfEstimate): ShelfEstimate => {
  const { apart } = reelsApart(estimate, beyondSpreads)
  const reelFacts = estimate.reelFacts.map((facts, reel) => (apart.has(reel) ? [] : facts))
  return { ...estimate, reelFacts }
}

/** A view holds as long as nobody writes: the last one of each store is kept. */
const kept = new WeakMap<Store, ShelfView>()

/**
 * The shelf as it is known now. Reckoned anew only where something was written since.
 *
 * @returns a refusal where facts do not fit together
 */
export const shelfView = async (store: Store): Promise<Outcome<ShelfView>> => {
  const revision = await store.revision()
  const last = kept.get(store)
  if (last?.revision === revision) return accept(last)
  const read = await readTogether(store, revision)
  const view = viewOf(read.rows, read.facts, read.revision)
  if (view.ok) kept.set(store, view.value)
  return view
}

interface ReadTogether {
  readonly revision: number
  readonly rows: readonly CatalogueRowJson[]
  readonly facts: readonly FactJson[]
}

/** Somebody who writes without a pause does not keep others from reading for ever. */
const mostReads = 10

/**
 * Rows and facts of one revision: with a write between them facts would name rows that were not read.
 *
 * @param revision - of the store, as last asked for
 */
const readTogether = async (store: Store, revision: number, tried = 1): Promise<ReadTogether> => {
  const rows = await store.catalogue()
  const facts = await store.facts()
  const then = await store.revision()
  return then === revision || tried === mostReads
    ? { revision, rows, facts }
    : readTogether(store, then, tried + 1)
}

/**
 * The same without a store.
 *
 * @param learnt - of nearly the same facts, where the spreads need not be learnt anew
 */
export const viewOf = (
  rows: readonly CatalogueRowJson[],
  facts: readonly FactJson[],
  revision: number,
  learnt?: LearntSpreads,
): Outcome<ShelfView> => {
  const shelf = shelfOf(rows, facts)
  const { catalogue, facts: told, priors } = shelf
  try {
    const spreads =
      learnt ?? learnSpreads(trusted(estimateShelf(catalogue, told, { priors })), { priors })
    const { priors: learntPriors, standIns } = spreads
    const estimate = reelsApart(estimateShelf(catalogue, told, { priors: learntPriors, standIns }))
    return accept({
      revision,
      rows,
      facts,
      standing: standingFacts(facts),
      shelf,
      spreads,
      estimate,
      cards: new Map(reelCards(rows, facts).map((card) => [card.id, card])),
    })
  } catch (error) {
    if (!(error instanceof DomainError)) throw error
    return refuse({
      code: error.code,
      message: `The facts of the ledger do not fit together: ${error.message}. Put right the fact named.`,
    })
  }
}
