import { carrierSurprise } from './carrier-surprise.ts'
import { placeOf } from './shelf-book.ts'
import { type ShelfEstimate, withApart, withoutWeighing } from './shelf-estimate.ts'
import type { CarrierWeighed, ReelOpened, ReelWeighed, ShelfFact } from './shelf-facts.ts'
import { defaultShelfSlips, type ShelfSlips } from './shelf-slips.ts'
import { type WeighingSurprise, weighingSurprise } from './shelf-surprise.ts'
import { usedOfReel } from './shelf-used.ts'

/** A weighing of the ledger that everything else contradicts. */
export interface Contradiction {
  /** `grossWhenNew` is what is meant where it is an opening. */
  readonly fact: ReelWeighed | ReelOpened | CarrierWeighed
  /** The weighing against all other facts, later ones included. */
  readonly surprise: WeighingSurprise
}

/**
 * The weighings of a make's reels that all other facts contradict, the farthest off first.
 *
 * To be asked when a weighing surprised and a second one agreed with it: then it is an earlier one that
 * is wrong, maybe of another reel, for what a slip taught of a carrier went on to the whole make. One is
 * named only if it is surprising and neither chance nor an unusual carrier is its likeliest cause. That of a
 * reel's own empty carrier is among them where it contradicts another reading of the reel and is the farther
 * off: alone it would tell of a carrier unlike the others. The first is the likeliest to be
 * wrong; the others may well be in order once it is voided, so ask again then.
 *
 * @param make - id
 * @throws DomainError `unknown_id`
 */
export const contradictions = (
  estimate: ShelfEstimate,
  make: string,
  { slips = defaultShelfSlips }: { slips?: ShelfSlips } = {},
): readonly Contradiction[] => {
  const { book, reelsOfMake, reelFacts } = estimate
  return reelsOfMake[placeOf(book.makeAt, make, 'make')]!.flatMap((reel) => {
    const used = usedOfReel(estimate, reel, false, undefined)
      .filter(({ surprising }) => surprising)
      .toSorted((a, b) => Math.abs(b.off) - Math.abs(a.off))
    const off = new Set(used.map(({ fact }) => fact))
    return reelFacts[reel]!.filter(({ id }) => off.has(id)).flatMap((fact) => {
      if (fact.kind === 'carrier-weighed') {
        if (off.size === 1 || used[0]!.fact !== fact.id) return []
        const others = heeding(withoutWeighing(estimate, fact.id), reel)
        return { fact, surprise: carrierSurprise(others, fact) } satisfies Contradiction
      }
      const seen = weighingOf(fact)
      if (!seen) return []
      const others = withoutWeighing(estimate, fact.id)
      return { fact, surprise: weighingSurprise(others, seen, { slips }) } as Contradiction
    })
  })
    .filter(({ surprise }) => surprise.surprising && !isNoSlip(surprise))
    .toSorted((a, b) => Math.abs(b.surprise.off) - Math.abs(a.surprise.off))
}

/** Of a reel that is apart only the others would tell of its carrier, and not what was weighed with it. */
const heeding = (estimate: ShelfEstimate, reel: number): ShelfEstimate =>
  estimate.apart.has(reel)
    ? withApart(estimate, estimate.apart.difference(new Set([reel])))
    : estimate

/** Whether what explains it best leaves the reading right. */
const isNoSlip = ({ causes: [likeliest] }: WeighingSurprise): boolean =>
  likeliest?.code === 'chance' || likeliest?.code === 'unusual_carrier'

const weighingOf = (fact: ShelfFact): ReelWeighed | undefined => {
  if (fact.kind === 'weighed') return fact
  if (fact.kind !== 'opened' || !fact.grossWhenNew) return undefined
  const { id, at, reel, grossWhenNew } = fact
  return { kind: 'weighed', id, at, reel, ...grossWhenNew }
}
