import { readDecimal, toNumber } from './decimal.ts'
import { accept, type Outcome, refuse } from './refusal.ts'

/**
 * A plain number of any sign, without a unit or a power of ten: `21.90`, `21,90`, `1 299`.
 *
 * @returns `number_malformed` where more stands there than a number, and as `readDecimal`:
 *   `1,299` is refused with both its readings
 */
export const parseNumber = (typed: string): Outcome<number> => {
  const text = typed.trim()
  const read = readDecimal(text, 0)
  if (!read.ok) return read
  const { decimal, end } = read.value
  if (end === text.length && !/e/i.test(text)) return accept(toNumber(decimal))
  return refuse({
    code: 'number_malformed',
    message: `"${text}" is not one number. Write for example 1234.5.`,
    expected: 'one decimal number',
    received: typed,
  })
}
