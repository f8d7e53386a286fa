import type { Kind, Unit } from './kind.ts'
import { type Measured, measured } from './measured.ts'
import { type Grams, grams } from './quantity.ts'
import { readOne } from './read-series.ts'
import { accept, type Outcome } from './refusal.ts'

// Exact by definition: international yard and pound agreement, 1959.
const ounce: Unit = { times: 28_349_523_125, over: 1e9 }
const pound: Unit = { times: 45_359_237, over: 1e5 }

const mass: Kind = {
  noun: 'mass',
  units: new Map<string, Unit>([
    ['g', {}],
    ['gram', {}],
    ['grams', {}],
    ['kg', { tens: 3 }],
    ['mg', { tens: -3 }],
    ['oz', ounce],
    ['ounce', ounce],
    ['ounces', ounce],
    ['lb', pound],
    ['lbs', pound],
    ['pound', pound],
    ['pounds', pound],
  ]),
  bare: {},
  example: '422 g',
  domain: 'not negative',
}

const poundsAndOunces = /^(.*?(?:lbs?|pounds?))\s*(\d.*?(?:oz|ounces?)\s*)$/i

/**
 * A mass as a person types it: `422 g`, `0.422 kg`, `14.9 oz`, `2 lb 3 oz`, `422 ± 2 g`. A bare
 * number is grams.
 *
 * @returns grams ≥ 0, u = 0 where no ± is given; refusals as `readSeries`
 */
export const parseMass = (text: string): Outcome<Measured<Grams>> => {
  const both = poundsAndOunces.exec(text)
  if (both?.[1] !== undefined && both[2] !== undefined) {
    const pounds = readOne(both[1], mass)
    if (!pounds.ok) return pounds
    // Blanks in the place of the pounds keep the offsets of a refusal right.
    const ounces = readOne(both[2].padStart(text.length), mass)
    if (!ounces.ok) return ounces
    const sum = pounds.value.value + ounces.value.value
    return accept(measured(grams(sum), Math.hypot(pounds.value.u, ounces.value.u)))
  }
  const one = readOne(text, mass)
  return one.ok ? accept(measured(grams(one.value.value), one.value.u)) : one
}
