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
export const otherLabel = (
  make: MakeRowJson | undefined,
  label: number | undefined,
): number | undefined =>
  label !== undefined && timesApart(label, ownLabel(make)) > otherSize ? label : undefined

/**
 * The sizes of carrier that a make's reels came on, each by the net mass on their label, g: the make's own
 * first where reels came on it, then the others from the smallest. Its own alone where it has no reels.
 *
 * @param labels - of its reels, g; undefined where a reel has none of its own
 */
export const carrierLabels = (
  make: MakeRowJson | undefined,
  labels: Iterable<number | undefined>,
): readonly number[] => {
  const own = ownLabel(make)
  const sizes = new Set<number>()
  for (const label of labels) sizes.add(otherLabel(make, label) ?? own)
  const others = [...sizes].filter((size) => size !== own).toSorted((one, other) => one - other)
  return others.length === 0 || sizes.has(own) ? [own, ...others] : others
}

/**
 * A make's reels by the size of their carriers: what one carrier weighs tells nothing of one of another
 * size, so to the estimate these are makes of their own.
 */
export class CarrierSizes {
  readonly #makes: ReadonlyMap<string, MakeRowJson>
  readonly #ofReel = new Map<string, string>()
  /** By make, then by the label told of a reel or a carrier: the make as the estimate knows it. */
  readonly #sizes = new Map<string, Map<number, string>>()

  constructor(makes: ReadonlyMap<string, MakeRowJson>) {
    this.#makes = makes
  }

  /** Takes a reel in. @returns the id of its make, as the estimate knows it */
  open({ reel, make, label_net_g }: OpenedJson): string {
    const id = label_net_g === undefined ? make : this.#begin(make, label_net_g)
    this.#ofReel.set(reel, id)
    return id
  }

  #begin(make: string, label: number): string {
    const other = otherLabel(this.#makes.get(make), label)
    const id = other === undefined ? make : `${make} ${other} g`
    const sizes = this.#sizes.get(make) ?? new Map<number, string>()
    this.#sizes.set(make, sizes.set(label, id))
    return id
  }

  /**
   * Of the labels of its make and its reels the nearest, where a carrier with that label can be of their
   * size.
   */
  #nearest(make: string, label: number | undefined): string {
    if (label === undefined) return make
    const own = [ownLabel(this.#makes.get(make)), make] as const
    const [nearest] = [own, ...(this.#sizes.get(make) ?? [])]
      .filter(([known]) => timesApart(known, label) <= otherSize)
      .toSorted(([one], [other]) => timesApart(one, label) - timesApart(other, label))
    return nearest?.[1] ?? this.#begin(make, label)
  }

  *#othersOf(make: string): Generator<[label: number, id: string]> {
    for (const size of this.#sizes.get(make) ?? []) if (size[1] !== make) yield size
  }

  /** Makes of which reels, or carriers, of another size are there, with that size on their label. */
  *others(): Generator<MakeRowJson> {
    for (const make of this.#sizes.keys()) {
      for (const [label_net_g, id] of this.#othersOf(make)) {
        yield { ...this.#makes.get(make)!, id, label_net_g }
      }
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
    const others = [...this.#othersOf(of.make)]
    return [
      fact,
      ...others.map(([, make]) =>
        Object.assign({}, ofAllSizes, { id: `${fact.id} ${make}`, make }),
      ),
    ]
  }
}
