import {
  type FirmwareFamilyId,
  firmwareFamilies,
  type MotionProfile,
  motionDefaults,
} from '../../print/index.ts'
import { accept, type Outcome, parseNumber, refuse } from '../../units/index.ts'
import { refuseDotted } from '../field/refuse-dotted.ts'
import { motionWords } from '../strings/motion-words.ts'
import type { RowField } from './row-field.ts'

type Texts = Readonly<Record<string, string>>

/** More than any printer does; what is above it was typed wrong. */
const most = { speed: 10_000, acceleration: 10_000_000, deviation: 10 } as const

const plain = (value: number): string => String(Number(value.toPrecision(6)))

const parseAbove = (text: string, upTo: number, least?: 'none'): Outcome<number> => {
  const mayBeNothing = least === 'none'
  const read = refuseDotted(text) ?? parseNumber(text)
  if (!read.ok && read.refusal.code === 'number_ambiguous') return read
  const isWithin =
    read.ok && read.value <= upTo && (read.value > 0 || (mayBeNothing && read.value === 0))
  return isWithin ? read : outOfBounds(plain(upTo), mayBeNothing)
}

const single = (
  key: keyof typeof motionWords.fields,
  usual: number,
  upTo: number,
  least?: 'none',
): RowField => ({
  key,
  within: 'motion',
  label: motionWords.fields[key],
  hint: motionWords.unless(plain(usual)),
  show: (value) => (typeof value === 'number' ? plain(value) : ''),
  read: (text) => parseAbove(text, upTo, least),
})

/** Values of X, Y, Z and the feeder, in one field. */
const ofAxes = (
  key: keyof typeof motionWords.fields,
  usual: readonly number[],
  upTo: number,
): RowField => ({
  key,
  within: 'motion',
  label: motionWords.fields[key],
  hint: motionWords.unless(usual.map(plain).join(' · ')),
  show: (value) => (Array.isArray(value) ? value.map((one) => plain(Number(one))).join(' · ') : ''),
  read: (text) => {
    const read = text
      .trim()
      .split(/\s*[·;/]\s*|\s+/)
      .map((part) => parseAbove(part, upTo))
    if (read.length !== 4) {
      return refuse({ code: 'axes_malformed', message: motionWords.four(read.length) })
    }
    return read.find((one) => !one.ok) ?? accept(read.flatMap((one) => (one.ok ? [one.value] : [])))
  },
})

const outOfBounds = (upTo: string, mayBeNothing: boolean): Outcome<never> =>
  refuse({ code: 'out_of_bounds', message: motionWords.outOfBounds(upTo, mayBeNothing) })

/**
 * What may be told of how a printer moves, by its firmware and its corner rule as they stand in the form:
 * values that its corner rule does not ask for are not shown.
 */
export const motionFields = ({ firmware = '', corner = '' }: Texts): readonly RowField[] => {
  const family: FirmwareFamilyId =
    firmwareFamilies.find(({ id }) => id === firmware)?.id ?? 'community'
  const usual: MotionProfile = motionDefaults[family]
  const rule = corner === '' ? usual.corner : corner
  const rules = Object.entries(motionWords.corners)
  return [
    ofAxes('max_feed_mm_per_s', usual.maxFeed, most.speed),
    ofAxes('max_accel_mm_per_s2', usual.maxAccel, most.acceleration),
    single('print_accel_mm_per_s2', usual.printAccel, most.acceleration),
    single('travel_accel_mm_per_s2', usual.travelAccel, most.acceleration),
    single('retract_accel_mm_per_s2', usual.retractAccel, most.acceleration),
    {
      key: 'corner',
      within: 'motion',
      label: motionWords.fields.corner,
      show: (value) => (typeof value === 'string' ? value : ''),
      read: (text) => accept(text.trim()),
      choices: [['', motionWords.asFirmware(motionWords.corners[usual.corner])], ...rules],
    },
    ...(rule === 'jerk' ? [ofAxes('jerk_mm_per_s', usual.jerk, most.speed)] : []),
    ...(rule === 'junction-deviation'
      ? [single('junction_deviation_mm', usual.junctionDeviation, most.deviation)]
      : []),
    ...(rule === 'square-corner'
      ? [
          single('square_corner_mm_per_s', usual.squareCorner, most.speed),
          single('minimum_cruise', usual.minimumCruise, 0.99, 'none'),
        ]
      : []),
  ]
}
