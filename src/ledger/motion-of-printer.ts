import type { MotionJson, PrinterRowJson } from '../contract/index.ts'
import { firmwareFamilies, type MotionOptions, type MotionProfile } from '../print/index.ts'

type Values = NonNullable<MotionOptions['values']>

/** Each value of a printer's row, and the profile's name for it. */
const keys = [
  ['max_feed_mm_per_s', 'maxFeed'],
  ['max_accel_mm_per_s2', 'maxAccel'],
  ['print_accel_mm_per_s2', 'printAccel'],
  ['travel_accel_mm_per_s2', 'travelAccel'],
  ['retract_accel_mm_per_s2', 'retractAccel'],
  ['corner', 'corner'],
  ['jerk_mm_per_s', 'jerk'],
  ['junction_deviation_mm', 'junctionDeviation'],
  ['square_corner_mm_per_s', 'squareCorner'],
  ['minimum_cruise', 'minimumCruise'],
] as const satisfies readonly (readonly [keyof MotionJson, keyof MotionProfile])[]

/** What is known of a printer's motion, for the reader. */
export const motionOfPrinter = ({
  firmware,
  motion = {},
}: Pick<PrinterRowJson, 'firmware' | 'motion'>): MotionOptions => {
  const family = firmwareFamilies.find(({ id }) => id === firmware)?.id
  const told = keys.filter(([key]) => motion[key] !== undefined)
  const values = Object.fromEntries(told.map(([key, name]) => [name, motion[key]])) as Values
  return {
    ...(family !== undefined && { family }),
    ...(told.length > 0 && { values }),
  }
}

/** The same values as a printer's row keeps them. */
export const motionRowOf = (values: Values): MotionJson => {
  const told = keys.filter(([, name]) => values[name] !== undefined)
  return Object.fromEntries(told.map(([key, name]) => [key, values[name]]))
}
