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
  open({ reel, make, label_net_g: label }: OpenedJson): string {
    const own = this.#makes.get(make)?.label_net_g ?? usualLabel
    const isOther = label !== undefined && Math.abs(Math.log(label / own)) > Math.log(otherSize)
    const id = isOther ? `${make} ${label} g` : make
    if (isOther) {
      const sizes = this.#others.get(make) ?? new Map<string, number>()
      this.#others.set(make, sizes.set(id, label))
    }
    this.#ofReel.set(reel, id)
    return id
  }

  /** Makes of which reels of another size are there, with that size on their label. */
  *others(): Generator<MakeRowJson> {
    for (const [make, sizes] of this.#others) {
      for (const [id, label_net_g] of sizes) yield { ...this.#makes.get(make)!, id, label_net_g }
    }
  }

  /** A fact about a make, once for each size of which it tells something. */
  told(fact: ShelfFact, of: CarrierWeighedJson | DataSheetJson): readonly ShelfFact[] {
    if (fact.kind === 'carrier-weighed') {
      const reel = 'reel' in of ? of.reel : undefined
      return [
        { ...fact, make: (reel === undefined ? undefined : this.#ofReel.get(reel)) ?? of.make },
      ]
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
