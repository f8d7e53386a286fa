import { DomainError } from './refusal.ts'
import { decimalText, roundDecimal } from './round-decimal.ts'

/**
 * A chance as percent: `99.7 %`, and whole percent from 10 to 90. A chance that is not quite
 * certain is never printed as `0 %` or `100 %` but as `< 0.1 %` or `> 99.9 %`.
 *
 * @param chance - 0 to 1
 * @throws DomainError `chance_out_of_range`
 */
export const formatChance = (chance: number): string => {
  if (!(chance >= 0 && chance <= 1)) {
    throw new DomainError('chance_out_of_range', `a chance lies between 0 and 1, not at ${chance}`)
  }
  if (chance === 0 || chance === 1) return `${100 * chance} %`
  const places = chance >= 0.1 && chance <= 0.9 ? 0 : 1
  const text = decimalText(100 * roundDecimal(chance, places + 2), places)
  if (text === '0.0') return '< 0.1 %'
  if (text === '100.0') return '> 99.9 %'
  return `${text} %`
}
