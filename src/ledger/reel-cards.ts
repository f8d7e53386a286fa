import type {
  CatalogueRowJson,
  ColourJson,
  FactJson,
  MakeRowJson,
  OpenedJson,
  PriceJson,
  PutRightJson,
  WeighingJson,
} from '../contract/index.ts'
import { catalogueOf } from './catalogue.ts'
import { nameOfMaterial } from './name-of-material.ts'
import { byTime, reelHistories, reelOfFact, type StandingFact } from './reel-histories.ts'
import { standingFacts } from './standing-facts.ts'

/**
 * Where a reel stands: nothing fed yet; some fed; emptied, or run dry with nothing fed after; off the
 * shelf.
 */
export type ReelState = 'new' | 'part-used' | 'empty' | 'retired'

/** A fact on a card. */
export interface CardFact {
  readonly fact: StandingFact
  /** What says that it does not hold. */
  readonly voided?: PutRightJson
}

/** A reel as people look it up. */
export interface ReelCard {
  readonly id: string
  /** Absent where the catalogue has no such row. */
  readonly make?: MakeRowJson
  /** What its material is called; absent where that is not known. */
  readonly materialName?: string
  readonly opened: OpenedJson
  readonly colour?: ColourJson
  readonly lot?: string
  /** Where it was put last. */
  readonly place?: string
  readonly price?: PriceJson
  readonly state: ReelState
  /** That of when it was new counts. */
  readonly lastWeighing?: { readonly at: string; readonly weighing: WeighingJson }
  /** In order of time, the first `opened` that holds at the head; those that do not hold marked. */
  readonly facts: readonly CardFact[]
  /** Moment of `opened`. */
  readonly openedAt: string
  /** Moment of the latest fact that holds. */
  readonly touchedAt: string
}

/**
 * A card for each reel that stands opened, in the order in which they were.
 *
 * @param facts - in the order written down
 */
export const reelCards = (
  rows: Iterable<CatalogueRowJson>,
  facts: readonly FactJson[],
): readonly ReelCard[] => {
  const { makes, materials } = catalogueOf(rows)
  const standing = standingFacts(facts)
  const voidedOf = new Map<string, CardFact[]>()
  for (const fact of facts) {
    const voided = standing.voided.get(fact.id)
    const reel = reelOfFact(fact)
    if (voided === undefined || reel === undefined || fact.kind === 'put-right') continue
    const list = voidedOf.get(reel)
    if (list === undefined) voidedOf.set(reel, [{ fact, voided }])
    else list.push({ fact, voided })
  }
  return Array.from(reelHistories(standing).reels, ([id, { opened, facts: own }]) => {
    const { colour, lot, price } = opened
    const make = makes.get(opened.make)
    const moved = own.findLast((fact) => fact.kind === 'moved')
    const place = moved?.place ?? opened.place
    const whenNew = opened.gross_when_new
    // Of one that came part-used, what it weighed when new tells nothing of it since.
    const lastWeighing =
      own.findLast((fact) => fact.kind === 'weighed') ??
      (whenNew && opened.part_used !== true && { at: opened.at, weighing: whenNew })
    const [first, ...others] = own.map((fact): CardFact => ({ fact }))
    const rest = [...others, ...(voidedOf.get(id) ?? [])]
    return {
      id,
      ...(make && { make }),
      ...(make?.material !== undefined && {
        materialName: nameOfMaterial(make.material, materials),
      }),
      opened,
      ...(colour && { colour }),
      ...(lot !== undefined && { lot }),
      ...(place !== undefined && { place }),
      ...(price && { price }),
      state: reelState(own),
      ...(lastWeighing && { lastWeighing }),
      facts: [first!, ...rest.toSorted((a, b) => byTime(a.fact, b.fact))],
      openedAt: opened.at,
      touchedAt: own.reduce((last, { at }) => (at > last ? at : last), opened.at),
    }
  })
}

/** @param facts - those of one reel that hold, in order of time */
export const reelState = (facts: readonly StandingFact[]): ReelState => {
  let state: ReelState = 'new'
  let fullest = 0
  for (const fact of facts) {
    if (fact.kind === 'opened') fullest = fact.gross_when_new?.reading_g ?? fact.label_net_g ?? 0
    if (fact.kind === 'weighed' && state === 'new' && lacks(fact.weighing.reading_g, fullest)) {
      state = 'part-used'
    }
    if (fact.kind === 'retired') return 'retired'
    if (fact.kind === 'emptied' || fact.kind === 'ran-dry') state = 'empty'
    else if (takesFilament(fact)) state = 'part-used'
  }
  return state
}

/**
 * True where a scale shows so much less than a reel weighed, or holds by its label, when it was new that
 * neither a label nor water that dried out tells it.
 */
const lacks = (reading_g: number, fullest_g: number): boolean => reading_g < 0.97 * fullest_g

const takesFilament = (fact: StandingFact): boolean => {
  if (fact.kind === 'opened') return fact.part_used === true
  if (fact.kind === 'drew') return fact.length_mm * (fact.share?.value ?? 1) > 0
  return fact.kind === 'trimmed'
}
