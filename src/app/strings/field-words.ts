import type { FactBounds } from '../../ledger/index.ts'

const figure = new Intl.NumberFormat('en-GB')

/** Words of the fields. */
export const fieldWords = {
  reel: 'Reel',
  make: 'Make',
  material: 'Material',
  colourUntold: 'not told',
  colourBack: 'Take it back',
  noneFound: 'None has these words.',
  noneOf: (typed: string): string =>
    `None here has "${typed.trim()}". Choose one from the list, or empty the field.`,
  severalOf: (typed: string): string =>
    `"${typed.trim()}" can be more than one. Choose one from the list.`,
  noNumber: (typed: string, whole: boolean): string =>
    whole ? `"${typed}" is no whole number.` : `"${typed}" is no number.`,
  outOfBounds: (least: number, most: number): string =>
    `It has to lie between ${figure.format(least)} and ${figure.format(most)}.`,
  between: ([low, high, unit]: FactBounds): string =>
    `It has to lie between ${figure.format(low)} and ${figure.format(high)} ${unit}. Check the unit.`,
} as const
