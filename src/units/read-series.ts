import { type Decimal, readDecimal } from './decimal.ts'
import { convert, convertSpan, type Kind, type Unit, unitKey } from './kind.ts'
import { accept, type Outcome, refuse } from './refusal.ts'

/** One or two values typed together, with the standard uncertainty typed for each, or 0. */
export interface Series {
  readonly first: number
  readonly second: number | undefined
  readonly u: number
}

interface Piece {
  readonly text: string
  readonly at: number
}

interface Part extends Piece {
  readonly decimal: Decimal
  readonly unit: Unit | undefined
}

/** Cuts a piece at the first match, keeping offsets. */
const cut = ({ text, at }: Piece, pattern: RegExp): readonly [Piece, Piece?] => {
  const mark = pattern.exec(text)
  if (mark === null) return [{ text, at }]
  const after = mark.index + mark[0].length
  return [
    { text: text.slice(0, mark.index), at },
    { text: text.slice(after), at: at + after },
  ]
}

const trimmed = ({ text, at }: Piece): Piece => ({
  text: text.trim(),
  at: at + text.length - text.trimStart().length,
})

const readPart = (piece: Piece, kind: Kind): Outcome<Part> => {
  const { text, at } = trimmed(piece)
  const number = readDecimal(text, at)
  if (!number.ok) return number
  const { decimal, end } = number.value
  const name = trimmed({ text: text.slice(end), at: at + end })
  const unit = kind.units.get(unitKey(name.text))
  const more = /^[\d.,]+/.exec(name.text)?.[0]
  if (more !== undefined && unit === undefined) {
    const numbers = text.slice(0, name.at - at + more.length)
    return refuse({
      code: 'number_malformed',
      message: `"${numbers}" is more than one number. Write for example ${kind.example}.`,
      at,
      expected: 'one decimal number',
      received: numbers,
    })
  }
  if (name.text !== '' && unit === undefined) {
    return refuse({
      code: 'unit_not_taken',
      message: `"${name.text}" is not a unit of ${kind.noun} taken here. Write for example ${kind.example}.`,
      at: name.at,
      expected: [...kind.units.keys()].join(', '),
      received: name.text,
    })
  }
  return accept({ text, at, decimal, unit })
}

const faultOf = (value: number, { noun, domain, example }: Kind): [string, string] | undefined => {
  if (!Number.isFinite(value)) return ['number_too_large', 'is larger than any number kept here.']
  if (domain !== 'any' && value < 0) {
    return ['negative', `is negative, and a ${noun} is not. Write for example ${example}.`]
  }
  if (domain === 'positive' && value === 0) {
    return ['not_positive', `is zero, and a ${noun} is more. Write for example ${example}.`]
  }
  return undefined
}

const within = (value: number, { text, at }: Part, kind: Kind): Outcome<number> => {
  const fault = faultOf(value, kind)
  if (fault === undefined) return accept(value)
  const [code, why] = fault
  return refuse({ code, message: `"${text}" ${why}`, at, received: text })
}

const spanWithin = (u: number, part: Part, kind: Kind): Outcome<number> =>
  u < 0
    ? refuse({
        code: 'uncertainty_negative',
        message: `"${part.text}" after ± is negative. Write how far off the value may be, as a positive number.`,
        at: part.at,
        received: part.text,
      })
    : within(u, part, { ...kind, domain: 'any' })

/**
 * Reads `a`, `a ± u`, or with a pattern for what stands between two values `a × b ± u`.
 *
 * A part without a unit takes the next unit to its right, else the last to its left, else
 * `kind.bare`: `422 ± 2 g`, `422 g ± 2` and `1.72 × 1.78 mm` all say what they seem to say.
 * What follows ± (also `+-`, `+/-`) is one standard uncertainty, k = 1.
 *
 * @returns values in the program's unit, or a refusal whose `at` is an offset in `typed`: `empty`,
 *   `unit_not_taken`, `number_too_large`, `negative`, `not_positive`, `uncertainty_negative`, and
 *   those of `readDecimal`
 */
export const readSeries = (typed: string, kind: Kind, between?: RegExp): Outcome<Series> => {
  // Character for character, so that offsets stay those of what was typed.
  const text = typed.replaceAll('\u2212', '-').replaceAll(/[\t\u00A0\u2009\u202F]/g, ' ')
  if (text.trim() === '') {
    return refuse({
      code: 'empty',
      message: `Nothing was given. Write a ${kind.noun}, for example ${kind.example}.`,
      at: 0,
      expected: kind.example,
      received: typed,
    })
  }
  const [head, tail] = cut({ text, at: 0 }, /±|\+\/?-/)
  const [leftPiece, rightPiece] = between ? cut(head, between) : [head]
  const left = readPart(leftPiece, kind)
  if (!left.ok) return left
  const right = rightPiece && readPart(rightPiece, kind)
  if (right?.ok === false) return right
  const span = tail && readPart(tail, kind)
  if (span?.ok === false) return span

  const [l, r, s] = [left.value.unit, right?.value.unit, span?.value.unit]
  const { bare } = kind
  const first = within(convert(left.value.decimal, l ?? r ?? s ?? bare), left.value, kind)
  if (!first.ok) return first
  const second =
    right && within(convert(right.value.decimal, r ?? s ?? l ?? bare), right.value, kind)
  if (second?.ok === false) return second
  const u =
    span && spanWithin(convertSpan(span.value.decimal, s ?? r ?? l ?? bare), span.value, kind)
  if (u?.ok === false) return u
  return accept({ first: first.value, second: second?.value, u: u?.value ?? 0 })
}

/** One value with its uncertainty, in the program's unit. */
export const readOne = (
  typed: string,
  kind: Kind,
): Outcome<{ readonly value: number; readonly u: number }> => {
  const series = readSeries(typed, kind)
  if (!series.ok) return series
  const { first, u } = series.value
  return accept({ value: first, u })
}
