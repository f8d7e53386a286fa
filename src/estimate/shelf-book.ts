import type { Scale } from '../filament/index.ts'
import { DomainError, grams } from '../units/index.ts'
import type { ShelfCatalogue } from './shelf-facts.ts'
import {
  type MakePrior,
  makePrior,
  type PrinterPrior,
  printerPrior,
  type ShelfPriors,
} from './shelf-priors.ts'

/**
 * The catalogue with places for ids, and the priors of everything shared.
 *
 * Unknowns that reels share are counted in prior standard deviations about the prior mean, so that
 * each is N(0, 1) beforehand, the systems to solve are well conditioned, and one that is known
 * exactly needs no case of its own. A make has four (`makeUnknowns`). The core is what makes share:
 * columns 2p and 2p + 1 are the feed factor and the start allowance (mm) of printer p, column
 * 2·printers + q is the gain of scale q.
 */
export interface ShelfBook {
  readonly catalogue: ShelfCatalogue
  readonly priors: ShelfPriors
  readonly makes: readonly MakePrior[]
  readonly printers: readonly PrinterPrior[]
  /** As stated, times `scaleOverStated`. */
  readonly scales: readonly Scale[]
  /** Place of the make of each reel. */
  readonly makeOfReel: Int32Array
  readonly reelAt: ReadonlyMap<string, number>
  readonly makeAt: ReadonlyMap<string, number>
  readonly printerAt: ReadonlyMap<string, number>
  readonly scaleAt: ReadonlyMap<string, number>
  /** Prior mean of each core unknown. */
  readonly coreValue: Float64Array
  /** Prior standard uncertainty of each core unknown. */
  readonly coreSpread: Float64Array
}

/** Places of a make's unknowns in its block: mean tare, overfill, density, cross-section. */
export const makeUnknowns = { tare: 0, overfill: 1, density: 2, area: 3, count: 4 } as const

/**
 * Reads a catalogue.
 *
 * @throws DomainError `id_twice`, `unknown_id`, `material_unknown`
 */
export const shelfBook = (catalogue: ShelfCatalogue, priors: ShelfPriors): ShelfBook => {
  const makeAt = places(catalogue.makes, 'make')
  const printers = catalogue.printers.map((printer) => printerPrior(printer, priors))
  const scales = catalogue.scales.map(({ scale }) => ({
    ...scale,
    repeatability: grams(scale.repeatability * priors.scaleOverStated.value),
    gain: scale.gain * priors.scaleOverStated.value,
  }))
  const core = [
    ...printers.flatMap(({ feedFactor, startAllowance }) => [feedFactor, startAllowance]),
    ...scales.map(({ gain }) => ({ value: 0, u: gain })),
  ]
  return {
    catalogue,
    priors,
    makes: catalogue.makes.map((make) => makePrior(make, priors)),
    printers,
    scales,
    makeOfReel: Int32Array.from(catalogue.reels, ({ make }) => placeOf(makeAt, make, 'make')),
    reelAt: places(catalogue.reels, 'reel'),
    makeAt,
    printerAt: places(catalogue.printers, 'printer'),
    scaleAt: places(catalogue.scales, 'scale'),
    coreValue: Float64Array.from(core, ({ value }) => value),
    coreSpread: Float64Array.from(core, ({ u }) => u),
  }
}

/** The place of an id. @throws DomainError `unknown_id` */
export const placeOf = (at: ReadonlyMap<string, number>, id: string, what: string): number => {
  const place = at.get(id)
  if (place === undefined) throw new DomainError('unknown_id', `there is no ${what} ${id}`)
  return place
}

const places = (
  rows: readonly { readonly id: string }[],
  what: string,
): ReadonlyMap<string, number> => {
  const at = new Map(rows.map(({ id }, i) => [id, i]))
  if (at.size < rows.length) throw new DomainError('id_twice', `two rows of ${what}s share an id`)
  return at
}
