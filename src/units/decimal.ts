import { accept, type Outcome, refuse } from './refusal.ts'

/** A number as typed, mantissa × 10^exponent, kept as text so that a shift by tens is exact. */
export interface Decimal {
  /** Digits with at most one dot, and a sign where one was typed. */
  readonly mantissa: string
  readonly exponent: number
}

/** A decimal and how much text it took. */
export interface DecimalRead {
  readonly decimal: Decimal
  readonly end: number
}

const grouped = /^[+-]?\d{1,3}(?: \d{3})+(?:[.,]\d*)?(?!\d)/
const plain = /^[+-]?[\d.,]*\d[.,]?/
const exponentMark = /^e([+-]?\d+)/i
const notFinite = /^[+-]?(?:nan|inf(?:inity)?|∞)/i
const byThrees = (mark: string): RegExp =>
  mark === '.' ? /^[1-9]\d{0,2}(?:\.\d{3})+$/ : /^[1-9]\d{0,2}(?:,\d{3})+$/

/** The mantissa with a dot for its decimal mark, both readings where two are possible. */
const readings = (digits: string): readonly string[] => {
  const marks = [...digits.matchAll(/[.,]/g)]
  const first = marks[0]?.[0]
  const last = marks.at(-1)
  if (first === undefined || last === undefined) return [digits]
  const whole = digits.slice(0, last.index)
  const share = digits.slice(last.index + 1)
  if (first !== last[0]) {
    return byThrees(first).test(whole) ? [`${whole.replaceAll(first, '')}.${share}`] : []
  }
  if (marks.length > 1) return byThrees(first).test(digits) ? [digits.replaceAll(first, '')] : []
  const asDecimal = `${whole}.${share}`
  return first === ',' && byThrees(',').test(digits) ? [asDecimal, whole + share] : [asDecimal]
}

/**
 * Reads one decimal number from the start of a text.
 *
 * Decimal point or decimal comma; thousands marked by the other of the two, or by spaces. A lone
 * dot is always the decimal mark. A lone comma before exactly three digits (`1,234`) has two
 * readings and is refused with both; `0,234` has one.
 *
 * @param text - with plain spaces and `-` only
 * @param at - where `text` starts in what the person typed, for the refusal
 * @returns the decimal and the offset just after it, or `number_missing`, `number_malformed`,
 *   `number_ambiguous`, `not_finite`
 */
export const readDecimal = (text: string, at: number): Outcome<DecimalRead> => {
  const endless = notFinite.exec(text)?.[0]
  if (endless !== undefined) {
    return refuse({
      code: 'not_finite',
      message: `"${endless}" is not a number that can be measured. Write digits.`,
      at,
      expected: 'a finite number',
      received: endless,
    })
  }
  const spaced = grouped.exec(text)?.[0]
  const typed = spaced ?? plain.exec(text)?.[0]
  if (typed === undefined) {
    return refuse({
      code: 'number_missing',
      message: `A number is missing${text === '' ? '' : ` before "${text.trim()}"`}.`,
      at,
      expected: 'a number',
      received: text,
    })
  }
  const sign = /^[+-]/.exec(typed)?.[0] ?? ''
  const digits = typed.slice(sign.length)
  const [mantissa, other] =
    spaced === undefined ? readings(digits) : [digits.replaceAll(' ', '').replace(',', '.')]
  if (mantissa === undefined) {
    return refuse({
      code: 'number_malformed',
      message: `"${typed}" is not one number. Use one decimal mark, as in 1234.5.`,
      at,
      expected: 'one decimal number',
      received: typed,
    })
  }
  if (other !== undefined) {
    return refuse({
      code: 'number_ambiguous',
      message: `"${typed}" can be read as ${sign}${mantissa} or as ${sign}${other}. Write the one that is meant.`,
      at,
      expected: `${sign}${mantissa} or ${sign}${other}`,
      received: typed,
    })
  }
  const power = exponentMark.exec(text.slice(typed.length))
  return accept({
    decimal: { mantissa: sign + mantissa, exponent: Number(power?.[1] ?? 0) },
    end: typed.length + (power?.[0].length ?? 0),
  })
}

/** The nearest double to a decimal times 10^tens; infinite where it overflows. */
export const toNumber = ({ mantissa, exponent }: Decimal, tens = 0): number =>
  Number(`${mantissa}e${exponent + tens}`)
