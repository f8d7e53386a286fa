export { changeAtNight } from './bed-time.ts'
export { capitalised } from './capitalised.ts'
export { formatAgo } from './format-ago.ts'
export { formatChance } from './format-chance.ts'
export { formatCount } from './format-count.ts'
export { durationStep, formatDuration } from './format-duration.ts'
export { formatMeasured } from './format-measured.ts'
export {
  formatDensity,
  formatLength,
  formatLinearDensity,
  formatMass,
  formatShare,
  formatTemperature,
} from './format-quantity.ts'
export {
  formatBetween,
  formatBy,
  formatHour,
  formatIsoDay,
  formatIsoMinute,
  formatWhen,
} from './format-when.ts'
export type { LengthUnit } from './length-kind.ts'
export { type Measured, measured } from './measured.ts'
export { parseDensity } from './parse-density.ts'
export { parseDuration } from './parse-duration.ts'
export { parseFactor } from './parse-factor.ts'
export { parseLength } from './parse-length.ts'
export { parseLinearDensity } from './parse-linear-density.ts'
export { parseMass } from './parse-mass.ts'
export { parseNumber } from './parse-number.ts'
export { type Pair, parsePair } from './parse-pair.ts'
export { parsePercent, parseShare } from './parse-share.ts'
export { parseTemperature } from './parse-temperature.ts'
export {
  type Celsius,
  celsius,
  type Grams,
  type GramsPerCubicCentimetre,
  type GramsPerMetre,
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  type Millimetres,
  millimetres,
  type Quantity,
  type Share,
  type SquareMillimetres,
  share,
  squareMillimetres,
} from './quantity.ts'
export { accept, DomainError, type Outcome, type Refusal, refuse } from './refusal.ts'
export { decimalText, roundDecimal } from './round-decimal.ts'
export { timeOfDay } from './time-of-day.ts'
export { isDoubtStated, lastPlaceOf, roundedDoubt, withTypedDoubt } from './typed-doubt.ts'
