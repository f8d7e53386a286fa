import {
  benchCaliper,
  crossSectionOfPlaces,
  massOfWinding,
  readingVariance,
  type Winding,
} from '../filament/index.ts'
import { DomainError, gramsPerCubicCentimetre, type Measured, measured } from '../units/index.ts'
import { placeOf, type ShelfBook } from './shelf-book.ts'
import type {
  ReelDrew,
  ReelDried,
  ReelMeasured,
  ReelOpened,
  ReelTrimmed,
  ShelfFact,
  ShelfWeighing,
} from './shelf-facts.ts'
import type { ShelfPriors } from './shelf-priors.ts'
import type { WaterStart } from './shelf-reel-water.ts'
import type { MakeWater } from './shelf-water.ts'

/** What a row of a tape does to the chain of a reel. */
export const tapeKinds = {
  drew: 0,
  trimmed: 1,
  trimmedLength: 2,
  seen: 3,
  ranDry: 4,
  emptied: 5,
  seenDamp: 6,
  trimmedDamp: 7,
  dried: 8,
  moved: 9,
} as const

/**
 * The facts of one reel (or the facts of a make that concern no reel) in order of time, as numbers.
 * Row i has its kind, a core column (`who`: feed factor of the printer, gain of the scale; −1 for
 * none) and, one after the other, 2 numbers or for `seen` and `seenDamp` 8, meant as its kind says:
 *
 * - drew: asked length m, variance of it m²
 * - trimmed: g, g²; trimmedLength: m, m²; ranDry: tail m, m²; emptied: 0, 0
 * - seen: value, variance, and the weights on tare, net, linear density, mean tare of the make,
 *   density of the make, gain
 * - seenDamp, trimmedDamp: the same of filament that is weighed with the water in it
 * - dried: water over dry mass, variance; moved: water at rest, its standing variance
 */
export interface Tape {
  readonly kind: Uint8Array
  readonly who: Int32Array
  readonly numbers: Float64Array
  readonly at: Float64Array
  /** Net mass on the label at opening, g; NaN where it tells nothing of the reel. */
  readonly label: number
  /** Net mass on the label of a part-used reel whose net nothing else tells of, g. */
  readonly upTo?: number
  /** Where the water of the reel is reckoned with; its rows are then of the kinds that heed it. */
  readonly water?: WaterStart
}

/** Priors that come in with the run of a tape, so that none of them stands in it. */
const notOnTape: ReadonlySet<string> = new Set<keyof ShelfPriors>([
  'unknownTare',
  'carrierKinds',
  'overfill',
  'overfillOfOneMake',
  'diameterOffset',
  'reelAboutMake',
  'feedFactor',
  'feedOfOneDraw',
  'startAllowance',
  'startOfOneDraw',
])

/** Whether the same facts make the same tapes by either priors; where it can not be seen they do not. */
export const isTapedAlike = (a: ShelfPriors, b: ShelfPriors): boolean =>
  Object.keys(a).every((key) => {
    if (notOnTape.has(key)) return true
    const [one, other] = [a[key as keyof ShelfPriors], b[key as keyof ShelfPriors]]
    if (one === other) return true
    return 'u' in one && 'u' in other && one.value === other.value && one.u === other.u
  })

/** Whether an opening tells of the reel when it was new: its label is of that, and so is its weighing. */
const wasNew = ({ partUsed, grossWhenNew }: ReelOpened): boolean =>
  partUsed !== true || grossWhenNew !== undefined

/** How many numbers a row of this kind has. */
export const tapeWidth = (kind: number): number => (isWide(kind) ? 8 : 2)

const isWide = (kind: number): boolean => kind === tapeKinds.seen || kind === tapeKinds.seenDamp

/** Writes tapes; the room it writes in is used again for each. */
export class TapeWriter {
  readonly #book: ShelfBook
  #kind = new Uint8Array(64)
  #who = new Int32Array(64)
  #numbers = new Float64Array(64 * 8)
  #at = new Float64Array(64)
  #rows = 0
  #filled = 0
  #now = 0
  /** Whether any reading is of the net. */
  #netTold = false
  /** Whether the next reading of the net stands for itself: something before it was not recorded. */
  #netUnsure = false
  #water: MakeWater | undefined

  constructor(book: ShelfBook) {
    this.#book = book
  }

  /**
   * The tape of one reel.
   *
   * @param facts - all of the reel, in order of time
   * @param make - place of its make
   * @throws DomainError `unknown_id`, `opened_not_first`, `impossible_fact`
   */
  writeReel(facts: readonly ShelfFact[], make: number): Tape {
    const water = this.#book.makes[make]!.water
    const [first] = facts
    const written = this.#write(facts, make, water)
    const upTo = this.#netTold ? undefined : this.#partOf(first, make)
    const tape = upTo === undefined ? written : { ...written, upTo }
    if (water === undefined) return tape
    const isNew = first?.kind === 'opened' && first.partUsed !== true
    const share = isNew ? water.whenNew : water.ofPartUsed
    return { ...tape, water: { since: first?.at ?? Infinity, share } }
  }

  /** The label of a reel that was part-used when it came. */
  #partOf(first: ShelfFact | undefined, make: number): number | undefined {
    if (first?.kind !== 'opened' || first.partUsed !== true) return undefined
    return first.labelNet ?? this.#book.catalogue.makes[make]!.labelNet
  }

  /**
   * The tape of a make without a reel.
   *
   * @param facts - all of the make that concern no reel, in order of time
   * @param make - place of the make
   * @throws DomainError `unknown_id`, `impossible_fact`
   */
  writeMake(facts: readonly ShelfFact[], make: number): Tape {
    return this.#write(facts, make, undefined)
  }

  #write(facts: readonly ShelfFact[], make: number, water: MakeWater | undefined): Tape {
    this.#water = water
    this.#rows = 0
    this.#filled = 0
    this.#netTold = false
    this.#netUnsure = false
    let label = Number.NaN
    for (let i = 0; i < facts.length; i++) {
      const fact = facts[i]!
      this.#now = fact.at
      switch (fact.kind) {
        case 'drew':
          this.#drew(fact)
          break
        case 'weighed':
          if (fact.afterUnrecorded) this.#netUnsure = true
          this.#weighing(fact, fact.id, 1, 1, 0, 0, 0)
          break
        case 'opened':
          if (i > 0) throw new DomainError('opened_not_first', `${fact.id} comes after others`)
          if (fact.labelNet !== undefined && wasNew(fact)) label = fact.labelNet
          if (!(label > 0 || Number.isNaN(label))) throw impossible(fact.id, label)
          if (fact.grossWhenNew) {
            this.#weighing(fact.grossWhenNew, fact.id, 1, 1, 0, 0, 0)
            if (fact.partUsed) this.#usedBefore(fact.id, this.#partOf(fact, make))
          }
          break
        case 'carrier-weighed': {
          const own = fact.reel !== undefined
          const spread = own ? 0 : this.#book.priors.carrierOfOneMake.u ** 2
          this.#weighing(fact, fact.id, own ? 1 : 0, 0, 0, own ? 0 : 1, spread)
          break
        }
        case 'trimmed':
          this.#trimmed(fact)
          break
        case 'ran-dry': {
          if (fact.afterUnrecorded) this.#netUnsure = true
          const { value, u } = fact.tail ?? this.#book.priors.tail
          this.#row(tapeKinds.ranDry, -1, fact.id, value / 1000, (u / 1000) ** 2)
          break
        }
        case 'emptied':
          this.#netUnsure = false
          this.#row(tapeKinds.emptied, -1, fact.id, 0, 0)
          break
        case 'dried':
          this.#dried(fact)
          break
        case 'moved':
          if (water) {
            const { value, u } = water.atRest[fact.air]
            this.#row(tapeKinds.moved, -1, fact.id, value, u ** 2)
          }
          break
        case 'measured':
          this.#measured(fact, make)
          break
        case 'data-sheet':
          if (fact.tare) this.#plain(fact.id, fact.tare, 0, 1, 0)
          if (fact.density) {
            const { value, u } = fact.density
            const own = u > 0 ? u : value * this.#book.priors.dataSheetOffset.u
            this.#plain(fact.id, { value, u: own }, 0, 0, 1)
          }
      }
    }
    const rows = this.#rows
    return {
      kind: this.#kind.slice(0, rows),
      who: this.#who.slice(0, rows),
      numbers: this.#numbers.slice(0, this.#filled),
      at: this.#at.slice(0, rows),
      label,
    }
  }

  #drew({ id, printer, length, share, afterUnrecorded }: ReelDrew): void {
    if (afterUnrecorded) this.#netUnsure = true
    const column = 2 * placeOf(this.#book.printerAt, printer, 'printer')
    const part = share?.value ?? 1
    if (!(length >= 0)) throw impossible(id, length)
    if (!(part >= 0 && part <= 1)) throw impossible(id, part)
    const metres = length / 1000
    this.#row(tapeKinds.drew, column, id, metres * part, (metres * (share?.u ?? 0)) ** 2)
  }

  /** What was fed before the reel came: anything up to its label, taken as uniform. */
  #usedBefore(id: string, label: number | undefined): void {
    if (label === undefined) this.#unrecorded(id)
    else this.#row(tapeKinds.trimmed, -1, id, label / 2, label ** 2 / 12)
  }

  /** The net changes by nobody knows what. */
  #unrecorded(id: string): void {
    const { u } = this.#book.priors.openingWithoutLabel
    this.#row(tapeKinds.trimmed, -1, id, 0, u ** 2)
  }

  #trimmed({ id, mass, length, afterUnrecorded }: ReelTrimmed): void {
    if (afterUnrecorded) this.#netUnsure = true
    const kind = this.#water ? tapeKinds.trimmedDamp : tapeKinds.trimmed
    if (mass) this.#row(kind, -1, id, mass.value, mass.u ** 2)
    if (length) {
      this.#row(tapeKinds.trimmedLength, -1, id, length.value / 1000, (length.u / 1000) ** 2)
    }
  }

  #dried({ id, remaining }: ReelDried): void {
    const told = remaining?.value ?? 0
    if (!(told >= 0 && told < 1)) throw impossible(id, told)
    if (!this.#water) return
    const usual = this.#water.afterDrying
    const { value, u } = remaining ?? usual
    this.#row(tapeKinds.dried, -1, id, value, (u > 0 ? u : usual.u) ** 2)
  }

  #measured(fact: ReelMeasured, make: number): void {
    const { id, calipers, cutLength, density, linearDensity, winding } = fact
    const { priors, makes } = this.#book
    const { density: usual, nominalArea } = makes[make]!
    const ofOneReel = usual.value * priors.densityOfOneMake.u
    if (linearDensity) this.#plain(id, linearDensity, 1, 0, 0)
    if (density) {
      this.#plain(id, { value: density.value, u: Math.hypot(density.u, ofOneReel) }, 0, 0, 1)
    }
    if (calipers) {
      // λ − A·ρ of the make is 0 but for the error of A and what this reel's density is off.
      const area: Measured = crossSectionOfPlaces(calipers.places, calipers.caliper ?? benchCaliper)
      const variance = (usual.value * area.u) ** 2 + (nominalArea * ofOneReel) ** 2
      this.#row(tapeKinds.seen, -1, id, 0, variance, 0, 0, 1, 0, -area.value)
    }
    if (cutLength) {
      const { length, weighing } = cutLength
      const metres = length.value / 1000
      const mass = weighing.reading - (weighing.extra?.value ?? 0)
      const ruler = (mass * length.u) / length.value
      const place = (mass * priors.metreAboutReel.u) / Math.sqrt(Math.max(1, metres))
      this.#weighing(weighing, id, 0, 0, metres, 0, ruler ** 2 + place ** 2)
    }
    if (winding) this.#winding(id, winding, usual.value, ofOneReel)
  }

  /** n − V·k·ρ of the make is 0 but for the errors of volume and packing and this reel's density. */
  #winding(id: string, winding: Winding, usual: number, ofOneReel: number): void {
    // With ρ = 1 and k = 1 exactly, the mass in grams is the winding's volume in cm³.
    const volume = massOfWinding(winding, measured(gramsPerCubicCentimetre(1)), measured(1))
    if (!volume.ok) throw new DomainError('impossible_fact', `${id}: ${volume.refusal.message}`)
    const { value, u } = volume.value
    const { packing } = this.#book.priors
    const variance =
      (usual * packing.value * u) ** 2 +
      (usual * packing.u * value) ** 2 +
      (ofOneReel * packing.value * value) ** 2
    this.#row(tapeKinds.seen, -1, id, 0, variance, 0, 1, 0, 0, -packing.value * value)
  }

  #weighing(
    { scale, reading, u, extra }: ShelfWeighing,
    id: string,
    tare: number,
    net: number,
    linear: number,
    meanTare: number,
    spread: number,
  ): void {
    const place = placeOf(this.#book.scaleAt, scale, 'scale')
    const own = u === undefined ? readingVariance(this.#book.scales[place]!) : u ** 2
    const variance = own + (extra?.u ?? 0) ** 2 + spread
    const column = 2 * this.#book.printers.length + place
    const value = reading - (extra?.value ?? 0)
    const isDamp = this.#water !== undefined && (net !== 0 || linear !== 0)
    const kind = isDamp ? tapeKinds.seenDamp : tapeKinds.seen
    this.#row(kind, column, id, value, variance, tare, net, linear, meanTare, 0, reading)
  }
  #plain(id: string, seen: Measured, linear: number, meanTare: number, density: number): void {
    const variance = seen.u ** 2
    this.#row(tapeKinds.seen, -1, id, seen.value, variance, 0, 0, linear, meanTare, density)
  }

  #row(
    kind: number,
    who: number,
    id: string,
    value: number,
    variance: number,
    tare = 0,
    net = 0,
    linear = 0,
    meanTare = 0,
    density = 0,
    gain = 0,
  ): void {
    const seen = isWide(kind) || kind === tapeKinds.ranDry
    if (!Number.isFinite(value)) throw impossible(id, value)
    if (!(seen ? variance > 0 : variance >= 0) || variance === Infinity) {
      throw impossible(id, variance)
    }
    if (seen && (net !== 0 || kind === tapeKinds.ranDry)) {
      this.#netTold = true
      if (this.#netUnsure) this.#unrecorded(id)
      this.#netUnsure = false
    }
    const row = this.#rows++
    if (row === this.#kind.length) this.#grow()
    this.#kind[row] = kind
    this.#who[row] = who
    this.#at[row] = this.#now
    const numbers = this.#numbers
    const from = this.#filled
    this.#filled += tapeWidth(kind)
    numbers[from] = value
    numbers[from + 1] = variance
    if (!isWide(kind)) return
    numbers[from + 2] = tare
    numbers[from + 3] = net
    numbers[from + 4] = linear
    numbers[from + 5] = meanTare
    numbers[from + 6] = density
    numbers[from + 7] = gain
  }

  #grow(): void {
    const size = 2 * this.#kind.length
    const [kind, who, numbers, at] = [this.#kind, this.#who, this.#numbers, this.#at]
    this.#kind = new Uint8Array(size)
    this.#who = new Int32Array(size)
    this.#numbers = new Float64Array(size * 8)
    this.#at = new Float64Array(size)
    this.#kind.set(kind)
    this.#who.set(who)
    this.#numbers.set(numbers)
    this.#at.set(at)
  }
}

const impossible = (id: string, received: number): DomainError =>
  new DomainError('impossible_fact', `fact ${id} can not hold ${received}`)
