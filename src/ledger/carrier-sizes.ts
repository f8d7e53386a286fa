import type {
  CarrierWeighedJson,
  DataSheetJson,
  MakeRowJson,
  OpenedJson,
} from '../contract/index.ts'
import type { ShelfFact } from '../estimate/index.ts'

/** Nobody names the carrier's size: what most are sold on, g on the label. */
const usualLabel = 1000
/** Labels this many times apart are wound on carriers of different size. Common practice, no source. */
const otherSize = 1.4

const timesApart = (one: number, other: number): number => Math.max(one / other, other / one)

const ownLabel = (make: MakeRowJson | undefined): number => make?.label_net_g ?? usualLabel

/** Net mass on the label by which a carrier's size is told; undefined where it is of its make's own size. */
const otherLabel = (
  make: MakeRowJson | undefined,
  label: number | undefined,
): number | undefined =>
  label !== undefined && timesApart(label, ownLabel(make)) > otherSize ? label : undefined

/**
 * The sizes of carrier that a make's reels came on, each by the net mass on their label, g: the make's own
 * first, then the others from the smallest. One where all are of a size.
 *
 * @param labels - of its reels, g; undefined where a reel has none of its own
 */
export const carrierLabels = (
  make: MakeRowJson | undefined,
  labels: Iterable<number | undefined>,
): readonly number[] => {
  const others = new Set<number>()
  for (const label of labels) {
    const other = otherLabel(make, label)
    if (other !== undefined) others.add(other)
  }
  return [ownLabel(make), ...[...others].toSorted((one, other) => one - other)]
}

/**
 * A make's reels by the size of their carriers: what one carrier weighs tells nothing of one of another
 * size, so to the estimate these are makes of their own.
 */
export class CarrierSizes {
  readonly #makes: ReadonlyMap<string, MakeRowJson>
  readonly #ofReel = new Map<string, string>()
  readonly #others = new Map<string, Map<string, number>>()

  constructor(makes: ReadonlyMap<string, MakeRowJson>) {
    this.#makes = makes
  }

  /** Takes a reel in. @returns the id of its make, as the estimate knows it */
  open({ reel, make, label_net_g }: OpenedJson): string {
    const label = otherLabel(this.#makes.get(make), label_net_g)
    const id = label === undefined ? make : this.#begin(make, label)
    this.#ofReel.set(reel, id)
    return id
  }

  #begin(make: string, label: number): string {
    const id = `${make} ${label} g`
    const sizes = this.#others.get(make) ?? new Map<string, number>()
    this.#others.set(make, sizes.set(id, label))
    return id
  }

  /** Of the sizes that reels came on the nearest, where a carrier with that label can be of it. */
  #nearest(make: string, label_net_g: number | undefined): string {
    const label = otherLabel(this.#makes.get(make), label_net_g)
    if (label === undefined) return make
    const [nearest] = [...(this.#others.get(make) ?? [])]
      .filter(([, known]) => timesApart(known, label) <= otherSize)
      .toSorted(([, one], [, other]) => timesApart(one, label) - timesApart(other, label))
    return nearest?.[0] ?? this.#begin(make, label)
  }

  /** Makes of which reels, or carriers, of another size are there, with that size on their label. */
  *others(): Generator<MakeRowJson> {
    for (const [make, sizes] of this.#others) {
      for (const [id, label_net_g] of sizes) yield { ...this.#makes.get(make)!, id, label_net_g }
    }
  }

  /** A fact about a make, once for each size of which it tells something; after all reels are open. */
  told(fact: ShelfFact, of: CarrierWeighedJson | DataSheetJson): readonly ShelfFact[] {
    if (of.kind === 'carrier-weighed') {
      const ofReel = of.reel === undefined ? undefined : this.#ofReel.get(of.reel)
      return [Object.assign({}, fact, { make: ofReel ?? this.#nearest(of.make, of.label_net_g) })]
    }
    if (fact.kind !== 'data-sheet' || fact.density === undefined) return [fact]
    const { tare: _tare, ...ofAllSizes } = fact
    const sizes = [...(this.#others.get(of.make) ?? new Map<string, number>()).keys()]
    return [
      fact,
      ...sizes.map((make) => Object.assign({}, ofAllSizes, { id: `${fact.id} ${make}`, make })),
    ]
  }
}
