import { parseTemperature } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { taken } from './taken.ts'

/** A temperature as typed, °C, that the ledger takes. @throws Fault outside of the bounds */
export const temperatureWithin = (
  typed: string,
  option: string,
  [low, high]: readonly [number, number],
): number => {
  const { value } = taken(parseTemperature(typed), option)
  if (value >= low && value <= high) return value
  throw usageFault(
    'temperature_out_of_range',
    `${option}: ${typed} can not be. Give ${low} to ${high} °C.`,
    option,
  )
}
