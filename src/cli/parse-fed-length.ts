import { factBounds } from '../ledger/index.ts'
import { type Measured, type Millimetres, parseLength, withTypedDoubt } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { taken } from './taken.ts'

/**
 * A length of filament that may be told in millimetres or in metres, as a tail or what a change takes: it
 * needs its unit.
 *
 * @throws Fault `unit_missing`, and as `taken`
 */
export const parseFedLength = (typed: string, option: string): Measured<Millimetres> => {
  if (/[1-9]/.test(typed) && !/[a-z"'µ]/i.test(typed)) {
    throw usageFault(
      'unit_missing',
      `${option}: "${typed}" may be millimetres or metres: write the unit, as 500mm or 0.5m.`,
      option,
    )
  }
  return taken(withTypedDoubt(typed, parseLength), option)
}

/**
 * The same where no feed path is so long that much more can be meant.
 *
 * @throws Fault `length_too_large`, and as `parseFedLength`
 */
export const parsePathLength = (typed: string, option: string): Measured<Millimetres> => {
  const length = parseFedLength(typed, option)
  const [, most] = factBounds.path_mm
  if (length.value <= most) return length
  throw usageFault(
    'length_too_large',
    `${option}: "${typed}" is more than ${most / 1000} m, and no way from reel to nozzle is so long. Check the unit.`,
    option,
  )
}
