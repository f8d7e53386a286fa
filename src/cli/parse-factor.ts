import { type Measured, measured } from '../units/index.ts'
import { usageFault } from './fault.ts'

/** Taken where a feed factor comes without ±: a careful adjustment, common practice, no source. */
const usualDoubt = 0.005

const factor = /^\s*(\d+(?:[.,]\d+)?)\s*(%?)\s*(?:(?:±|\+\/?-)\s*(\d+(?:[.,]\d+)?)\s*(%?)\s*)?$/

const number = (digits: string, mark: string | undefined): number =>
  Number(digits.replace(',', '.')) / (mark === '%' ? 100 : 1)

/**
 * A factor about 1: `1.006`, `0.994 ± 0.01`, `99.4 %`.
 *
 * @throws Fault `factor_malformed`, `factor_out_of_range` outside 0.8 to 1.25
 */
export const parseFactor = (text: string, option: string): Measured => {
  const [, figure, percent, doubt, doubtPercent] = factor.exec(text) ?? []
  if (figure === undefined) {
    throw usageFault(
      'factor_malformed',
      `${option}: "${text}" is not a factor. Write for example 1.006 or '0.994 ± 0.01'.`,
      option,
    )
  }
  // One percent sign is for both: 99.4 ± 1 %.
  const value = number(figure, percent || doubtPercent)
  const u = doubt === undefined ? usualDoubt : number(doubt, doubtPercent || percent)
  if (!(value >= 0.8 && value <= 1.25)) {
    throw usageFault(
      'factor_out_of_range',
      `${option}: a printer that feeds ${value} times what it is asked would not print. Expected a factor about 1.`,
      option,
    )
  }
  return measured(value, u)
}
