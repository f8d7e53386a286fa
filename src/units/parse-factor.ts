import { type Measured, measured } from './measured.ts'
import { accept, type Outcome, refuse } from './refusal.ts'

/** Taken where a feed factor comes without ±: a careful adjustment, common practice, no source. */
const usualDoubt = 0.005

const factor = /^\s*(\d+(?:[.,]\d+)?)\s*(%?)\s*(?:(?:±|\+\/?-)\s*(\d+(?:[.,]\d+)?)\s*(%?)\s*)?$/

const number = (digits: string, mark: string | undefined): number =>
  Number(digits.replace(',', '.')) / (mark === '%' ? 100 : 1)

/**
 * A factor about 1: `1.006`, `0.994 ± 0.01`, `99.4 %`; u = 0.005 where no ± is given.
 *
 * @returns `factor_malformed`, `factor_out_of_range` outside 0.8 to 1.25
 */
export const parseFactor = (text: string): Outcome<Measured> => {
  const [, figure, percent, doubt, doubtPercent] = factor.exec(text) ?? []
  if (figure === undefined) {
    return refuse({
      code: 'factor_malformed',
      message: `"${text}" is not a factor. Write for example 1.006 or '0.994 ± 0.01'.`,
      received: text,
    })
  }
  // One percent sign is for both: 99.4 ± 1 %.
  const value = number(figure, percent || doubtPercent)
  const u = doubt === undefined ? usualDoubt : number(doubt, doubtPercent || percent)
  if (!(value >= 0.8 && value <= 1.25)) {
    return refuse({
      code: 'factor_out_of_range',
      message: `a printer that feeds ${value} times what it is asked would not print. Expected a factor about 1.`,
      received: text,
    })
  }
  return accept(measured(value, u))
}
