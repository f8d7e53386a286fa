import {
  contradictions,
  defaultShelfPriors,
  estimateShelf,
  learnSpreads,
  type ReelWeighed,
  type ShelfCatalogue,
  type ShelfEstimate,
  type ShelfFact,
  type ShelfPriors,
  type SpreadFactors,
  weighingSurprise,
  withFacts,
  withoutWeighing,
} from '../../src/estimate/index.ts'
import { kitchenScale, readingVariance } from '../../src/filament/index.ts'

/** What a bench's ledger came to, for the tables. */
export interface LedgerTally {
  weighings: number
  /** Weighings that were surprising when they were made. */
  flagged: number
  /** Weighings voided because everything else contradicted them. */
  voided: number
}

/** Two readings of one load agree: three standard deviations of their difference. */
const same = 3 * Math.sqrt(2 * readingVariance(kitchenScale))

/** A ledger as a person keeps it who does what the estimate advises. */
export class BenchLedger {
  readonly facts: ShelfFact[] = []
  readonly tally: LedgerTally = { weighings: 0, flagged: 0, voided: 0 }
  readonly #catalogue: ShelfCatalogue
  readonly #learns: boolean
  #priors: ShelfPriors = defaultShelfPriors
  #learnt: SpreadFactors | undefined
  #estimate: ShelfEstimate
  #pending: ShelfFact[] = []
  #ids = 0

  constructor(catalogue: ShelfCatalogue, learns: boolean) {
    this.#catalogue = catalogue
    this.#learns = learns
    this.#estimate = estimateShelf(catalogue, [])
  }

  /** An id, and a time on that day after all that was recorded before. */
  next(day: number): { readonly id: string; readonly at: number } {
    this.#ids++
    return { id: `fact ${this.#ids}`, at: day + this.#ids * 1e-6 }
  }

  record(fact: ShelfFact): void {
    this.facts.push(fact)
    this.#pending.push(fact)
  }

  /** All that is known. */
  known(): ShelfEstimate {
    if (this.#pending.length > 0) this.#estimate = withFacts(this.#estimate, this.#pending)
    this.#pending = []
    return this.#estimate
  }

  /** The same from the start, its spreads learnt anew where they are learnt. */
  reckon(): ShelfEstimate {
    if (this.#learns) {
      const from = this.#learnt ? { from: this.#learnt } : {}
      const { likeliest, priors } = learnSpreads(this.known(), from)
      this.#learnt = likeliest
      this.#priors = priors
    }
    this.#pending = []
    this.#estimate = estimateShelf(this.#catalogue, this.facts, { priors: this.#priors })
    return this.#estimate
  }

  /**
   * Weighs until nothing surprises, or two readings one after the other agree: then both stand, though
   * they surprise. None after six.
   */
  weigh(before: ShelfEstimate, put: () => ReelWeighed): readonly ReelWeighed[] {
    let last: ReelWeighed | undefined
    for (let go = 0; go < 6; go++) {
      const fact = put()
      this.tally.weighings++
      if (!weighingSurprise(before, fact, { most: 1 }).surprising) return [fact]
      this.tally.flagged++
      // Accepted: as the command line takes it, nothing more is said of what was fed before.
      if (last && Math.abs(fact.reading - last.reading) <= same) {
        return [{ ...last, afterUnrecorded: true }, fact]
      }
      last = fact
    }
    return []
  }

  /** Weighings into the ledger; where they surprised twice, what they contradict is voided. */
  take(seen: readonly ReelWeighed[], make: string): void {
    for (const fact of seen) this.record(fact)
    if (seen.length < 2) return
    const { estimate, gone } = settled(this.known(), make)
    this.#estimate = estimate
    this.tally.voided += gone.length
    for (const id of gone) {
      this.facts.splice(
        this.facts.findIndex((fact) => fact.id === id),
        1,
      )
    }
  }
}

/** An estimate with weighings just made, and what they contradict voided: the ledger stays as it is. */
export const seenNow = (
  before: ShelfEstimate,
  seen: readonly ReelWeighed[],
  make: string,
): ShelfEstimate => {
  const after = withFacts(before, seen)
  return seen.length < 2 ? after : settled(after, make).estimate
}

/** Voids the worst contradiction of a make until there is none. */
const settled = (
  before: ShelfEstimate,
  make: string,
): { readonly estimate: ShelfEstimate; readonly gone: readonly string[] } => {
  const gone: string[] = []
  let estimate = before
  for (;;) {
    const [worst] = contradictions(estimate, make)
    if (worst === undefined) return { estimate, gone }
    estimate = withoutWeighing(estimate, worst.fact.id)
    gone.push(worst.fact.id)
  }
}
