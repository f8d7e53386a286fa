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
  dotted: (typed: string, few: string, many: string): string =>
    `"${typed}" can be read as ${few} or as ${many}. Write ${many}, or ${few}0.`,
  noNumber: (typed: string, whole: boolean): string =>
    whole ? `"${typed}" is no whole number.` : `"${typed}" is no number.`,
  dayHint: 'as 2026-03-01',
  momentHint: 'as 2026-03-01 21:30',
  noClock: (typed: string): string => `"${typed.trim()}" is no time of day. Write it as 21:30.`,
  noDay: (typed: string): string => `"${typed.trim()}" is no day. Write it as 2026-03-01.`,
  noMoment: (typed: string): string =>
    `"${typed.trim()}" is no day and time. Write them as 2026-03-01 21:30, or a day alone.`,
  dayBetween: ([first, last]: readonly [first: string, last: string]): string =>
    `It has to lie between ${first} and ${last}.`,
  outOfBounds: (least: number, most: number): string =>
    `It has to lie between ${figure.format(least)} and ${figure.format(most)}.`,
  between: ([low, high, unit]: FactBounds): string =>
    `It has to lie between ${figure.format(low)} and ${figure.format(high)} ${unit}. Check the unit.`,
} as const
