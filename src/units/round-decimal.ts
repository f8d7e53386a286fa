/** x × 10^tens by moving the decimal point of the shortest text that reads back as x. */
const shift = (x: number, tens: number): number => {
  const [mantissa, exponent = '0'] = String(x).split('e')
  return Number(`${mantissa}e${Number(exponent) + tens}`)
}

/**
 * A number rounded to decimal places, halves away from zero, as a person rounds the digits they
 * see: 1.005 to two places is 1.01 although the double nearest to 1.005 lies below it.
 *
 * @param x - finite
 * @param places - whole; negative rounds to tens, hundreds, …
 * @returns the nearest double, never −0
 */
export const roundDecimal = (x: number, places: number): number =>
  Math.sign(x) * shift(Math.round(shift(Math.abs(x), places)), -places) || 0

/** The same as text, with exactly `places` digits after the point, none where `places` < 1. */
export const decimalText = (x: number, places: number): string =>
  roundDecimal(x, places).toFixed(Math.min(Math.max(places, 0), 100))
