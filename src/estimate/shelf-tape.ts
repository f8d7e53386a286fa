import {
  benchCaliper,
  crossSectionOfPlaces,
  massOfWinding,
  readingVariance,
  type Winding,
} from '../filament/index.ts'
import { DomainError, gramsPerCubicCentimetre, type Measured, measured } from '../units/index.ts'
import { anyPartOf } from './part-of-label.ts'
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
import { TapeRoom, TapeSize } from './tape-room.ts'

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
  drewPart: 10,
} as const

/**
 * The facts of one reel (or the facts of a make that concern no reel) in order of time, as numbers.
 * Row i has its kind, the place of a core column in `columns` (`who`: feed factor of the printer, gain of the
 * scale; −1 for none) and, one after the other, `tapeWidth` numbers, meant as its kind says:
 *
 * - drew: asked length m; drewPart: asked length m, variance of it m²
 * - trimmed: g, g²; trimmedLength: m, m²; ranDry: tail m, m²; emptied: 0, 0
 * - seen: value, variance, and the weights on tare, net, linear density, mean tare of the make,
 *   density of the make, gain
 * - seenDamp, trimmedDamp: the same of filament that is weighed with the water in it
 * - dried: water over dry mass, variance; moved: water at rest, its standing variance
 */
export interface Tape {
  readonly kind: Uint8Array
  readonly who: Int16Array
  readonly numbers: Float64Array
  readonly at: Float64Array
  /** Core columns met, in the order met; a printer brings two, its feed factor and its start allowance. */
  readonly columns: Int32Array
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
export const tapeWidth = (kind: number): number =>
  kind === tapeKinds.drew ? 1 : kind === tapeKinds.seen || kind === tapeKinds.seenDamp ? 8 : 2

/**
 * The tape of one reel.
 *
 * @param facts - all of the reel, in order of time
 * @param make - place of its make
 * @throws DomainError `unknown_id`, `opened_not_first`, `impossible_fact`
 */
export const tapeOfReel = (book: ShelfBook, facts: readonly ShelfFact[], make: number): Tape =>
  tapeOf(book, facts, make, true)

/**
 * The tape of a make without a reel.
 *
 * @param facts - all of the make that concern no reel, in order of time
 * @param make - place of the make
 * @throws DomainError `unknown_id`, `impossible_fact`
 */
export const tapeOfMake = (book: ShelfBook, facts: readonly ShelfFact[], make: number): Tape =>
  tapeOf(book, facts, make, false)

const tapeOf = (
  book: ShelfBook,
  facts: readonly ShelfFact[],
  make: number,
  isReel: boolean,
): Tape => {
  const size = new TapeSize()
  for (const fact of facts) size.add(fact)
  const writer = new TapeWriter(book, make, isReel, new TapeRoom([size]), size)
  for (const fact of facts) writer.write(fact)
  return writer.tape()
}

/** Writes one tape, fact by fact in order of time. */
export class TapeWriter {
  readonly #book: ShelfBook
  readonly #make: number
  readonly #isReel: boolean
  readonly #water: MakeWater | undefined
  readonly #room: TapeRoom
  readonly #size: TapeSize
  #columns: number[] = []
  #row = 0
  #number = 0
  #first: ShelfFact | undefined
  #label = Number.NaN
  #now = 0
  /** Whether any reading is of the net. */
  #netTold = false
  /** Whether the next reading of the net stands for itself: something before it was not recorded. */
  #netUnsure = false

  /**
   * @param make - place of the make
   * @param isReel - whether the facts are those of a reel
   * @param size - of the tape, which has its place in the room
   */
  constructor(book: ShelfBook, make: number, isReel: boolean, room: TapeRoom, size: TapeSize) {
    this.#book = book
    this.#make = make
    this.#isReel = isReel
    this.#water = isReel ? book.makes[make]!.water : undefined
    this.#room = room
    this.#size = size
    this.begin()
  }

  /** Begins anew, whatever was written. */
  begin(): void {
    this.#columns = []
    this.#row = this.#size.firstRow
    this.#number = this.#size.firstNumber
    this.#first = undefined
    this.#label = Number.NaN
    this.#netTold = false
    this.#netUnsure = false
  }

  /** The tape of what was written. */
  tape(): Tape {
    const { firstRow, firstNumber } = this.#size
    const { kind, who, numbers, at } = this.#room
    const columns = new Int32Array(this.#columns.length)
    for (let i = 0; i < columns.length; i++) columns[i] = this.#columns[i]!
    const written = {
      kind: kind.subarray(firstRow, this.#row),
      who: who.subarray(firstRow, this.#row),
      numbers: numbers.subarray(firstNumber, this.#number),
      at: at.subarray(firstRow, this.#row),
      columns,
      label: this.#label,
    }
    if (!this.#isReel) return written
    const first = this.#first
    const water = this.#water
    const upTo = this.#netTold ? undefined : this.#partOf(first)
    const tape = upTo === undefined ? written : { ...written, upTo }
    if (water === undefined) return tape
    const isNew = first?.kind === 'opened' && first.partUsed !== true
    const share = isNew ? water.whenNew : water.ofPartUsed
    return { ...tape, water: { since: first?.at ?? Infinity, share } }
  }

  /** The label of a reel that was part-used when it came. */
  #partOf(first: ShelfFact | undefined): number | undefined {
    if (first?.kind !== 'opened' || first.partUsed !== true) return undefined
    return first.labelNet ?? this.#book.catalogue.makes[this.#make]!.labelNet
  }

  /** @throws DomainError `unknown_id`, `opened_not_first`, `impossible_fact` */
  write(fact: ShelfFact): void {
    const first = this.#first === undefined
    this.#first ??= fact
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
        if (!first) throw new DomainError('opened_not_first', `${fact.id} comes after others`)
        this.#opened(fact)
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
        this.#narrow(tapeKinds.ranDry, -1, fact.id, value / 1000, (u / 1000) ** 2)
        break
      }
      case 'emptied':
        this.#netUnsure = false
        this.#narrow(tapeKinds.emptied, -1, fact.id, 0, 0)
        break
      case 'dried':
        this.#dried(fact)
        break
      case 'moved':
        if (this.#water) {
          const { value, u } = this.#water.atRest[fact.air]
          this.#narrow(tapeKinds.moved, -1, fact.id, value, u ** 2)
        }
        break
      case 'measured':
        this.#measured(fact)
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

  #opened(fact: ReelOpened): void {
    const { id, labelNet, grossWhenNew, partUsed } = fact
    if (labelNet !== undefined && wasNew(fact)) this.#label = labelNet
    if (!(this.#label > 0 || Number.isNaN(this.#label))) throw impossible(id, this.#label)
    if (!grossWhenNew) return
    this.#weighing(grossWhenNew, id, 1, 1, 0, 0, 0)
    if (partUsed) this.#usedBefore(id, this.#partOf(fact))
  }

  #drew({ id, printer, length, share, afterUnrecorded }: ReelDrew): void {
    if (afterUnrecorded) this.#netUnsure = true
    const place = placeOf(this.#book.printerAt, printer, 'printer')
    const who = this.#met(2 * place)
    if (!(length >= 0)) throw impossible(id, length)
    const metres = length / 1000
    if (share === undefined) {
      this.#begin(tapeKinds.drew, who, id, metres)
      this.#number++
      return
    }
    const { value, u } = share
    if (!(value >= 0 && value <= 1)) throw impossible(id, value)
    this.#narrow(tapeKinds.drewPart, who, id, metres * value, (metres * u) ** 2)
  }

  /** What was fed before the reel came: its label less anything up to that. */
  #usedBefore(id: string, label: number | undefined): void {
    if (label === undefined) return this.#unrecorded(id)
    const { value, u } = anyPartOf(label)
    this.#narrow(tapeKinds.trimmed, -1, id, label - value, u ** 2)
  }

  /** The net changes by nobody knows what. */
  #unrecorded(id: string): void {
    const { u } = this.#book.priors.openingWithoutLabel
    this.#narrow(tapeKinds.trimmed, -1, id, 0, u ** 2)
  }

  #trimmed({ id, mass, length, afterUnrecorded }: ReelTrimmed): void {
    if (afterUnrecorded) this.#netUnsure = true
    const kind = this.#water ? tapeKinds.trimmedDamp : tapeKinds.trimmed
    if (mass) this.#narrow(kind, -1, id, mass.value, mass.u ** 2)
    if (length) {
      this.#narrow(tapeKinds.trimmedLength, -1, id, length.value / 1000, (length.u / 1000) ** 2)
    }
  }

  #dried({ id, remaining }: ReelDried): void {
    const told = remaining?.value ?? 0
    if (!(told >= 0 && told < 1)) throw impossible(id, told)
    if (!this.#water) return
    const usual = this.#water.afterDrying
    const { value, u } = remaining ?? usual
    this.#narrow(tapeKinds.dried, -1, id, value, (u > 0 ? u : usual.u) ** 2)
  }

  #measured(fact: ReelMeasured): void {
    const { id, calipers, cutLength, density, linearDensity, winding } = fact
    const { priors, makes } = this.#book
    const { density: usual, nominalArea } = makes[this.#make]!
    const ofOneReel = usual.value * priors.densityOfOneMake.u
    if (linearDensity) this.#plain(id, linearDensity, 1, 0, 0)
    if (density) {
      this.#plain(id, { value: density.value, u: Math.hypot(density.u, ofOneReel) }, 0, 0, 1)
    }
    if (calipers) {
      // λ − A·ρ of the make is 0 but for the error of A and what this reel's density is off.
      const area: Measured = crossSectionOfPlaces(calipers.places, calipers.caliper ?? benchCaliper)
      const variance = (usual.value * area.u) ** 2 + (nominalArea * ofOneReel) ** 2
      this.#wide(tapeKinds.seen, -1, id, 0, variance, 0, 0, 1, 0, -area.value, 0)
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
    this.#wide(tapeKinds.seen, -1, id, 0, variance, 0, 1, 0, 0, -packing.value * value, 0)
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
    const column = this.#met(2 * this.#book.printers.length + place)
    const value = reading - (extra?.value ?? 0)
    const isDamp = this.#water !== undefined && (net !== 0 || linear !== 0)
    const kind = isDamp ? tapeKinds.seenDamp : tapeKinds.seen
    this.#wide(kind, column, id, value, variance, tare, net, linear, meanTare, 0, reading)
  }

  #plain(id: string, seen: Measured, linear: number, meanTare: number, density: number): void {
    this.#wide(tapeKinds.seen, -1, id, seen.value, seen.u ** 2, 0, 0, linear, meanTare, density, 0)
  }

  /** Place of a core column among those met. */
  #met(column: number): number {
    const columns = this.#columns
    const met = columns.indexOf(column)
    if (met >= 0) return met
    if (column < 2 * this.#book.printers.length) columns.push(column, column + 1)
    else columns.push(column)
    return columns.indexOf(column)
  }

  #narrow(kind: number, who: number, id: string, value: number, variance: number): void {
    if (kind === tapeKinds.ranDry) this.#seeing(id, variance, true)
    this.#begin(kind, who, id, value)
    this.#vary(id, variance)
    this.#number += 2
  }

  #wide(
    kind: number,
    who: number,
    id: string,
    value: number,
    variance: number,
    tare: number,
    net: number,
    linear: number,
    meanTare: number,
    density: number,
    gain: number,
  ): void {
    this.#seeing(id, variance, net !== 0)
    this.#begin(kind, who, id, value)
    this.#vary(id, variance)
    const { numbers } = this.#room
    const from = this.#number
    this.#number += 8
    numbers[from + 2] = tare
    numbers[from + 3] = net
    numbers[from + 4] = linear
    numbers[from + 5] = meanTare
    numbers[from + 6] = density
    numbers[from + 7] = gain
  }

  /** Before a reading: of the net, it may stand for itself. */
  #seeing(id: string, variance: number, onNet: boolean): void {
    if (!(variance > 0)) throw impossible(id, variance)
    if (!onNet) return
    this.#netTold = true
    if (this.#netUnsure) this.#unrecorded(id)
    this.#netUnsure = false
  }

  #begin(kind: number, who: number, id: string, value: number): void {
    if (!Number.isFinite(value)) throw impossible(id, value)
    const room = this.#room
    const row = this.#row++
    room.kind[row] = kind
    room.who[row] = who
    room.at[row] = this.#now
    room.numbers[this.#number] = value
  }

  #vary(id: string, variance: number): void {
    if (!(variance >= 0) || variance === Infinity) throw impossible(id, variance)
    this.#room.numbers[this.#number + 1] = variance
  }
}

const impossible = (id: string, received: number): DomainError =>
  new DomainError('impossible_fact', `fact ${id} can not hold ${received}`)
