import { accept, DomainError, formatCount, type Outcome, refuse } from '../units/index.ts'

/**
 * Digits and letters that stay apart when read aloud or written by hand: no 0, 1, I, L, O. There are
 * 31 of them, a prime, which is what makes the check symbol find every single slip.
 */
export const idAlphabet = '23456789ABCDEFGHJKMNPQRSTUVWXYZ'

const size = idAlphabet.length

/** How many symbols an id of its kind has, check symbol included. */
export const idLength = {
  /** Reels, makes, printers, scales, people, materials. */
  row: 5,
  fact: 9,
} as const

/**
 * The symbol that makes the sum of (place × value) divisible by 31, places counted from 1 and the
 * check symbol standing last. Any one symbol misread, and any two symbols exchanged, is found, as
 * long as the id is shorter than 31: a place is never 0 modulo a prime, nor is the difference of two.
 *
 * @param body - the symbols before it, of `idAlphabet`
 * @throws DomainError `symbol_unknown`
 */
export const checkSymbol = (body: string): string => {
  let sum = 0
  for (let i = 0; i < body.length; i++) sum += (i + 1) * valueOf(body[i]!)
  const place = body.length + 1
  for (let value = 0; value < size; value++) {
    if ((sum + place * value) % size === 0) return idAlphabet[value]!
  }
  throw new DomainError('id_too_long', 'an id has fewer than 31 symbols')
}

const valueOf = (symbol: string): number => {
  const value = idAlphabet.indexOf(symbol)
  if (value < 0) throw new DomainError('symbol_unknown', `${symbol} is no symbol of an id`)
  return value
}

/**
 * A new id from random bytes.
 *
 * @param length - check symbol included, one of `idLength`
 * @param random - bytes without end, evenly distributed
 */
export const makeId = (length: number, random: () => number): string => {
  let body = ''
  while (body.length < length - 1) {
    // The highest multiple of 31 in a byte: what lies above would favour the first symbols.
    const byte = random()
    if (byte < 248) body += idAlphabet[byte % size]
  }
  return body + checkSymbol(body)
}

/** True for an id as it is kept: upper case, no hyphens, right check symbol. */
export const isId = (text: string, length: number): boolean => {
  if (text.length !== length) return false
  for (const symbol of text) if (!idAlphabet.includes(symbol)) return false
  return checkSymbol(text.slice(0, -1)) === text.at(-1)
}

/**
 * An id as a person types it: in either case, with spaces or hyphens.
 *
 * @param length - one of `idLength`
 * @returns the id as it is kept, or `id_length`, `id_symbol`, `id_check`
 */
export const readId = (typed: string, length: number): Outcome<string> => {
  const text = typed.replaceAll(/[\s-]/g, '').toUpperCase()
  const strange = Array.from(text).find((symbol) => !idAlphabet.includes(symbol))
  if (strange !== undefined) {
    return refuse({
      code: 'id_symbol',
      message: `${typed} is no id: ${strange} stands in none of them. Ids have no 0, 1, I, L and O; look again.`,
      received: typed,
    })
  }
  if (text.length !== length) {
    return refuse({
      code: 'id_length',
      message: `${typed} is no id: it has ${formatCount(text.length, 'symbol')} where ids of this kind have ${length}.`,
      received: typed,
    })
  }
  if (isId(text, length)) return accept(text)
  return refuse({
    code: 'id_check',
    message: `${typed} has a slip in it: its last symbol does not fit the others. Read it again.`,
    received: typed,
  })
}

/** An id as it is shown: symbols in threes where there are more than five. */
export const showId = (id: string): string =>
  id.length <= 5 ? id : (id.match(/.{1,3}/g) ?? []).join('-')
