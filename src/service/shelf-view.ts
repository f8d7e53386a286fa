import type { CatalogueRowJson, FactJson } from '../contract/index.ts'
import { estimateShelf, type ShelfEstimate } from '../estimate/index.ts'
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
  readonly estimate: ShelfEstimate
  /** By the id of the reel. */
  readonly cards: ReadonlyMap<string, ReelCard>
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
  const view = viewOf(await store.catalogue(), await store.facts(), revision)
  if (view.ok) kept.set(store, view.value)
  return view
}

/** The same without a store. */
export const viewOf = (
  rows: readonly CatalogueRowJson[],
  facts: readonly FactJson[],
  revision: number,
): Outcome<ShelfView> => {
  const shelf = shelfOf(rows, facts)
  const { catalogue, facts: told, priors } = shelf
  try {
    const estimate = estimateShelf(catalogue, told, { priors })
    return accept({
      revision,
      rows,
      facts,
      standing: standingFacts(facts),
      shelf,
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
