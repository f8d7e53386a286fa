import {
  contradictions,
  defaultShelfPriors,
  earlierAtFault,
  estimateShelf,
  learnSpreads,
  type ReelWeighed,
  type ShelfCatalogue,
  type ShelfEstimate,
  type ShelfFact,
  type ShelfOptions,
  type ShelfPriors,
  type SpreadFactors,
  weighingSurprise,
  withFacts,
  withoutWeighing,
  withSpreads,
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

/** How a ledger is kept; see `BenchOptions`. */
export interface LedgerHabits {
  readonly learns: boolean
  readonly doubts: boolean
  readonly looksBack: boolean
  /** What is reckoned with until spreads are learnt; the default ones unless given. */
  readonly priors?: ShelfPriors
}

/** Two readings of one load agree: three standard deviations of their difference. */
const same = 3 * Math.sqrt(2 * readingVariance(kitchenScale))

/** A ledger as a person keeps it who does what the estimate advises. */
export class BenchLedger {
  readonly facts: ShelfFact[] = []
  readonly tally: LedgerTally = { weighings: 0, flagged: 0, voided: 0 }
  readonly #catalogue: ShelfCatalogue
  readonly #keeps: LedgerHabits
  #reckonedWith: Pick<ShelfOptions, 'priors' | 'standIns'> = {}
  #learnt: SpreadFactors | undefined
  #estimate: ShelfEstimate
  #pending: ShelfFact[] = []
  #ids = 0

  constructor(catalogue: ShelfCatalogue, keeps: LedgerHabits) {
    this.#catalogue = catalogue
    this.#keeps = keeps
    if (keeps.priors) this.#reckonedWith = { priors: keeps.priors }
    this.#estimate = estimateShelf(catalogue, [], this.#reckonedWith)
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
    // From what was learnt last time once through all factors is enough.
    const from = this.#learnt ? { from: this.#learnt, sweeps: 1 } : {}
    const learnt = this.#keeps.learns ? learnSpreads(this.known(), from) : undefined
    if (learnt) {
      this.#learnt = learnt.likeliest
      this.#reckonedWith = this.#keeps.doubts
        ? learnt
        : { priors: withSpreads(defaultShelfPriors, learnt.likeliest) }
    }
    this.#pending = []
    const { priors, standIns } = this.#reckonedWith
    const options = { ...(priors && { priors }), ...(standIns && { standIns }) }
    const estimate = estimateShelf(this.#catalogue, this.facts, options)
    this.#estimate = estimate
    return estimate
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
      if (last && Math.abs(fact.reading - last.reading) <= same) return [last, fact]
      last = fact
    }
    return []
  }

  /** Weighings into the ledger; where they surprised twice, they are settled first. */
  take(seen: readonly ReelWeighed[], make: string): void {
    if (seen.length < 2) {
      for (const fact of seen) this.record(fact)
      return
    }
    const { estimate, gone, accepted } = settled(this.known(), seen, make, this.#keeps.looksBack)
    this.facts.push(...accepted)
    this.#estimate = estimate
    this.tally.voided += gone.length
    for (const id of gone) {
      this.facts.splice(
        this.facts.findIndex((fact) => fact.id === id),
        1,
      )
    }
  }

  /** What is known with weighings just made, settled where they surprised: the ledger stays as it is. */
  seenNow(estimate: ShelfEstimate, seen: readonly ReelWeighed[], make: string): ShelfEstimate {
    return seen.length < 2
      ? withFacts(estimate, seen)
      : settled(estimate, seen, make, this.#keeps.looksBack).estimate
  }
}

/** What came of two surprising weighings that agree. */
interface Settled {
  readonly estimate: ShelfEstimate
  /** Ids of weighings voided. */
  readonly gone: readonly string[]
  /** The two as they are taken. */
  readonly accepted: readonly ReelWeighed[]
}

/**
 * Voids the earlier weighing that is at fault, if there is one. If the two surprise even then, they are
 * accepted: for all that is known something was fed and not recorded, unless chance or an unusual
 * carrier explains them better. What then contradicts all else is voided too, the worst first. One who
 * does not look back accepts them at once.
 */
const settled = (
  before: ShelfEstimate,
  seen: readonly ReelWeighed[],
  make: string,
  looksBack: boolean,
): Settled => {
  const [fault] = looksBack ? earlierAtFault(before, seen) : []
  const gone = fault ? [fault.fact.id] : []
  const rest = gone.reduce(withoutWeighing, before)
  const [first, ...others] = seen
  const { surprising, unrecorded } = weighingSurprise(rest, first!, { most: 1 })
  const accepted =
    surprising && unrecorded ? [{ ...first!, afterUnrecorded: true } as const, ...others] : seen
  let estimate = withFacts(rest, accepted)
  for (;;) {
    const [worst] = looksBack ? contradictions(estimate, make) : []
    if (worst === undefined) return { estimate, gone, accepted }
    estimate = withoutWeighing(estimate, worst.fact.id)
    gone.push(worst.fact.id)
  }
}
