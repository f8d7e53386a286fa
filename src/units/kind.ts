import { type Decimal, toNumber } from './decimal.ts'

/**
 * How a typed number becomes the program's unit: (number × 10^tens − zero) × times / over. Times and
 * over are whole where they can be, so that 3 ft is 914.4 mm to the last digit.
 */
export interface Unit {
  /** Whole power of ten, applied to the decimal text and therefore without rounding. */
  readonly tens?: number
  readonly times?: number
  readonly over?: number
  readonly zero?: number
}

/** What a parser needs to know of one kind of quantity. */
export interface Kind {
  /** As in "is not a unit of mass". */
  readonly noun: string
  /** Spellings in lower case without spaces, carets or raised figures. */
  readonly units: ReadonlyMap<string, Unit>
  /** The unit of a number that comes without one. */
  readonly bare: Unit
  /** Shown to the person, as in "422 g". */
  readonly example: string
  readonly domain: 'any' | 'not negative' | 'positive'
}

/** A typed value in the program's unit. */
export const convert = (decimal: Decimal, { tens, times = 1, over = 1, zero = 0 }: Unit): number =>
  ((toNumber(decimal, tens) - zero) * times) / over

/** A typed difference or uncertainty in the program's unit: the zero of the scale does not count. */
export const convertSpan = (decimal: Decimal, unit: Unit): number =>
  convert(decimal, { ...unit, zero: 0 })

/** The spelling under which a typed unit is looked up in `Kind.units`. */
export const unitKey = (typed: string): string =>
  typed
    .toLowerCase()
    .replaceAll(/[\s^]/g, '')
    .replaceAll('³', '3')
    .replaceAll(/[µμ]/g, 'u')
    .replace(/^deg(?:rees)?/, '°')
