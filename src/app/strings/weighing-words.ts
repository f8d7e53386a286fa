import type { ContradictedJson, SurpriseJson } from '../../contract/index.ts'
import { formatChance, formatIsoDay } from '../../units/index.ts'
import { saidIn } from './said-in.ts'
import { type Figure, type MassUnit, showMass, showReading } from './show-figure.ts'

type Cause = SurpriseJson['causes'][number]

/** What was weighed, by the kind of the fact that says so. */
const weighed: Readonly<Record<string, string>> = {
  opened: 'The weighing when it was new, of',
  'carrier-weighed': 'The weighing of its empty carrier, of',
}

const about = (mass: Figure | null, unit: MassUnit): string =>
  mass === null ? '' : `, about ${showMass(mass, unit)}`

const inOtherUnit = (name: string): string => `The display was in ${name}.`

const causes: Readonly<Record<string, (cause: Cause, unit: MassUnit) => string>> = {
  chance: () => 'Nothing is wrong: a rare reading.',
  other_reel: ({ reel }) => `Another reel stood on the scale: ${reel ?? ''} fits. Read its id.`,
  ounces: () => inOtherUnit('ounces'),
  pounds: () => inOtherUnit('pounds'),
  kilograms: () => inOtherUnit('kilograms'),
  tare_subtracted: () => 'The carrier was taken off already: type what the scale shows with it.',
  tare_subtracted_twice: () =>
    'The carrier was taken off twice: type what the scale shows with it.',
  print_not_recorded: ({ mass_g }, unit) =>
    `A print was not written down${about(mass_g, unit)}: write it down first, then weigh again.`,
  adapter_left_on: ({ mass_g }, unit) =>
    `Something else stood on the scale${about(mass_g, unit)}: take it off and weigh again.`,
  extra_not_there: ({ mass_g }, unit) =>
    `What was told to be beside it${about(mass_g, unit)}, was not on the scale: tell the same reading again, with nothing beside it.`,
  unusual_carrier: ({ mass_g }, unit) =>
    `The carrier is of another kind than was guessed${about(mass_g, unit)}: take it as it is, and weigh an empty one when you can.`,
  anything_else: () => 'A figure misread or mistyped, or a reel that is not on this shelf.',
}

/** Words of a weighing that was tested, whether it agreed or not. */
export const weighingWords = {
  plain: (mass_g: number, unit: MassUnit): string => showReading(mass_g, unit),
  surprise: (reel: string | null): string =>
    reel === null ? 'The weighing does not agree' : `The weighing of reel ${reel} does not agree`,
  isOff: (reading_g: number, { expected_g, off_g, off }: SurpriseJson, unit: MassUnit): string =>
    `The scale shows ${showReading(reading_g, unit)}, where ${showMass(expected_g, unit)} was expected: ${showReading(Math.abs(off_g), unit)} ${off_g < 0 ? 'less' : 'more'}, ${Math.abs(off).toFixed(Math.abs(off) < 10 ? 1 : 0)} standard deviations off. Nothing is written down yet.`,
  causes: 'What may explain it, likeliest first',
  noCauses: 'What usually explains it: another make, or something left on the carrier.',
  cause: (cause: Cause, unit: MassUnit): string =>
    causes[cause.code]?.(cause, unit) ?? saidIn(cause.message, unit),
  weight: ({ weight }: Cause): string => formatChance(Math.min(Math.max(weight, 0), 1)),
  atFault: ({ reel, at, reading_g }: ContradictedJson, unit: MassUnit): string =>
    `The weighing of reel ${reel} of ${formatIsoDay(at)}, ${showReading(reading_g, unit)}, may be the wrong one: without it this one would not surprise. Weigh again; if the scale shows the same, put that one right before you take this one.`,
  /** @param kind - of the fact that tells of the weighing */
  contradicted: (
    { at, reading_g, off_g }: ContradictedJson,
    kind: string,
    unit: MassUnit,
  ): string =>
    `${weighed[kind] ?? 'The weighing of'} ${formatIsoDay(at)}, ${showReading(reading_g, unit)}, contradicts the rest, by which it is ${showReading(Math.abs(off_g), unit)} ${off_g > 0 ? 'more' : 'less'} than it should be. Put it right, or weigh again.`,
  beside: {
    press: 'Something else stands on it',
    label: 'What else stands on the scale',
    hint: 'A holder or a bag, as 38 g or 1.3 oz: it is taken off what the scale shows.',
  },
  toReel: (reel: string): string => `To reel ${reel}`,
  take: 'Take it as it is',
  wasReel: (reel: string): string => `It was reel ${reel}`,
  wasFigure: (reading_g: number, unit: MassUnit): string =>
    `It was ${showReading(reading_g, unit)}`,
  leave: 'Leave it out',
  drawing: (reading: string, expected: string): string =>
    `On one scale: expected ${expected}, shown ${reading}.`,
  expected: (mass: string): string => `expected ${mass}`,
  /** What the drawing shows, row by row. @param agrees - standard deviations within which a reading agrees */
  scaleRows: (
    expected_g: Figure,
    agrees: number,
    reading_g: number | null,
    unit: MassUnit,
  ): readonly (readonly [string, string])[] => {
    const { value, u } = expected_g
    const ends = [value - agrees * u, value + agrees * u].map((end) => showReading(end, unit))
    return [
      ['expected', showMass(expected_g, unit)],
      ['agrees', ends.join(' to ')],
      ...(reading_g === null ? [] : [['the scale shows', showReading(reading_g, unit)] as const]),
    ]
  },
} as const
