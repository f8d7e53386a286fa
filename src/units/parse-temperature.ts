import type { Kind, Unit } from './kind.ts'
import { type Measured, measured } from './measured.ts'
import { type Celsius, celsius } from './quantity.ts'
import { readOne } from './read-series.ts'
import { accept, type Outcome, refuse } from './refusal.ts'

const kelvin: Unit = { zero: 273.15 }
const fahrenheit: Unit = { zero: 32, times: 5, over: 9 }
const absoluteZero = -273.15

const temperature: Kind = {
  noun: 'temperature',
  units: new Map<string, Unit>([
    ['°c', {}],
    ['c', {}],
    ['k', kelvin],
    ['°f', fahrenheit],
    ['f', fahrenheit],
  ]),
  bare: {},
  example: '23 °C',
  domain: 'any',
}

/**
 * A temperature as a person types it: `23`, `23 ± 0.5 °C`, `73.4 °F`, `296 K`. A bare number is °C.
 *
 * @returns °C ≥ −273.15, u = 0 where no ± is given; `below_absolute_zero`, and refusals as
 *   `readSeries`
 */
export const parseTemperature = (text: string): Outcome<Measured<Celsius>> => {
  const one = readOne(text, temperature)
  if (!one.ok) return one
  const { value, u } = one.value
  if (value < absoluteZero) {
    return refuse({
      code: 'below_absolute_zero',
      message: `"${text.trim()}" is below absolute zero. Write for example ${temperature.example}.`,
      at: 0,
      expected: `${absoluteZero} °C or more`,
      received: text,
    })
  }
  return accept(measured(celsius(value), u))
}
