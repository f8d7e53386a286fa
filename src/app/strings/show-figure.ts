import {
  formatChance,
  formatLength,
  formatMass,
  formatMeasured,
  type Grams,
  type Millimetres,
} from '../../units/index.ts'

/** A figure as the contract has it. */
export interface Figure {
  readonly value: number
  readonly u: number
}

/** Units that masses are shown in. */
export type MassUnit = 'g' | 'oz'

/** Exact: international avoirdupois ounce. */
export const ounce_g = 28.349523125

/** A figure that no end of a line tears from its unit or its uncertainty. */
export const whole = (figure: string): string => figure.replaceAll(' ', '\u00a0')

/** `171 ± 4 g`, or `6.03 ± 0.14 oz`. */
export const showMass = ({ value, u }: Figure, unit: MassUnit): string =>
  whole(
    unit === 'oz'
      ? formatMeasured({ value: value / ounce_g, u: u / ounce_g }, 'oz')
      : formatMass({ value: value as Grams, u }),
  )

/** A figure as a scale shows it, to a tenth of a gram, or a hundredth of an ounce. */
export const showReading = (mass_g: number, unit: MassUnit): string => {
  const places = unit === 'oz' ? 100 : 10
  return whole(`${Math.round(markOf(mass_g, unit) * places) / places} ${unit}`)
}

/** `57.7 ± 2.5 m`. */
export const showLength = ({ value, u }: Figure): string =>
  whole(formatLength({ value: value as Millimetres, u }))

/** No verdict is ever certain, though its figure may round to 0 or 1. */
const never = 1e-9

/** A chance as it is said everywhere: `97 %`, and never `0 %` or `100 %`. */
export const showChance = (chance: number): string =>
  whole(formatChance(Math.min(Math.max(chance, never), 1 - never)))

/** A height or size that is drawn, to a tenth of a millimetre: `72 mm`, `14.2 mm`. */
export const showHeight = (height_mm: number): string =>
  whole(`${Math.round(height_mm * 10) / 10} mm`)

/** A mass on a scale's mark, without its unit. */
export const markOf = (mass_g: number, unit: MassUnit): number =>
  unit === 'oz' ? mass_g / ounce_g : mass_g

/** Grams at a mark of a scale. */
export const gramsAt = (mark: number, unit: MassUnit): number =>
  unit === 'oz' ? mark * ounce_g : mark

/** Value and uncertainty of a shown figure apart, so that the latter can be set smaller. */
export const partsOf = (shown: string): readonly [value: string, rest: string] => {
  const [, value = shown, rest = ''] = /^([-−\d]\S*)(.*)$/s.exec(shown) ?? []
  return [value, rest]
}
