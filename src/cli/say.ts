import {
  formatChance,
  formatLength,
  formatLinearDensity,
  formatMass,
  type Grams,
  type GramsPerMetre,
  grams,
  type Measured,
  type Millimetres,
  measured,
  roundDecimal,
} from '../units/index.ts'

export { formatCount as sayCount } from '../units/index.ts'

/** A number with at most so many decimals and no trailing zeros. */
export const upTo = (value: number, places: number): string => String(roundDecimal(value, places))

const metres = new Intl.NumberFormat('en-GB', {
  minimumFractionDigits: 2,
  maximumFractionDigits: 2,
})

/** Doubt too small to be told apart at a bench is shown as the smallest that can be. */
const noFiner = <Q extends number>({ value, u }: Measured<Q>, least: number): Measured<Q> =>
  u === 0 ? measured(value) : measured(value, Math.max(u, least))

/** As `formatMass`, to the hundredth of a gram at most. */
export const sayMass = (mass: Measured<Grams>): string => formatMass(noFiner(mass, 0.01))

/** What is lacking, where less than nothing is left: `12.4 ± 1.1 g`. */
export const sayLack = ({ value, u }: Measured<Grams>): string =>
  sayMass(measured(grams(0 - value), u))

/** As `formatLength`, to the tenth of a millimetre at most. */
export const sayMeasuredLength = (length: Measured<Millimetres>): string =>
  formatLength(noFiner(length, 0.1))

/** As `formatLinearDensity`, to the milligram per metre at most. */
export const sayLinearDensity = (perMetre: Measured<GramsPerMetre>): string =>
  formatLinearDensity(noFiner(perMetre, 0.001))

/** A length of filament: `48.63 m`, and millimetres below one metre. */
export const sayLength = (mm: number): string =>
  Math.abs(mm) >= 1000 ? `${metres.format(mm / 1000)} m` : `${upTo(mm, 1)} mm`

/** A height: `z 36.2 mm`. */
export const sayHeight = (mm: number): string => `z ${upTo(mm, 2)} mm`

/** A share as whole percent, never 0 or 100 unless it is. */
export const sayShare = (share: number): string => {
  if (share <= 0 || share >= 1) return `${share <= 0 ? 0 : 100} %`
  return `${Math.min(99, Math.max(1, Math.round(share * 100)))} %`
}

/** As `formatChance`, but nothing that was measured is ever certain. */
export const sayChance = (chance: number): string =>
  formatChance(Math.min(1 - 1e-9, Math.max(1e-9, chance)))
