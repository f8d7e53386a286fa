import { type Outcome, refuse } from '../../units/index.ts'
import { fieldWords } from '../strings/field-words.ts'

/** The decimal mark of the browser's language. */
export const decimalMark: string =
  new Intl.NumberFormat(navigator.language)
    .formatToParts(1.5)
    .find(({ type }) => type === 'decimal')?.value ?? '.'

const dotted = /(?<![\d.,])([1-9]\d{0,2})\.(\d{3})(?![\d.,])\s*(kg|lbs?|pounds?)?/i

/**
 * Where the decimal mark is a comma, `1.175` may be a thousand and some: it is refused as `1,175` is.
 * Kilograms and pounds by the thousand nobody has on a bench.
 *
 * @returns `number_ambiguous`, or null where there is nothing to be asked
 */
export function refuseDotted(typed: string, mark: string = decimalMark): Outcome<never> | null {
  const [, whole, share, large] = dotted.exec(typed) ?? []
  if (mark !== ',' || whole === undefined || large !== undefined) return null
  const [few, many] = [`${whole},${share}`, `${whole}${share}`]
  return refuse({
    code: 'number_ambiguous',
    message: fieldWords.dotted(`${whole}.${share}`, few, many),
    expected: `${few} or ${many}`,
    received: typed,
  })
}
