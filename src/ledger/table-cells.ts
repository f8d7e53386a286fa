import type { ColourJson, PriceJson } from '../contract/index.ts'
import {
  accept,
  type Grams,
  type Measured,
  type Outcome,
  parseMass,
  refuse,
} from '../units/index.ts'

/**
 * A mass in a cell: `1 kg`, `750`, or in the unit that the name of its column gives.
 *
 * @param unit - for a bare number; g where ''
 */
export const massOfCell = (text: string, unit: string): Outcome<Measured<Grams>> =>
  parseMass(/[a-z]/i.test(text) || unit === '' ? text : `${text} ${unit}`)

const isoDay = /^(\d{4})-(\d\d)-(\d\d)(?:[T ](\d\d):(\d\d)(?::(\d\d))?(?:\.(\d{1,3}))?\s*(Z)?)?$/
const dottedDay = /^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$/

const two = (part: string | undefined): string => (part ?? '').padStart(2, '0')

/**
 * A day in a cell: `2026-03-01`, with a time of day after it or not, or `1.3.2026`. Times are taken as
 * UTC; a bare day as its noon, which is that day nearly everywhere.
 *
 * @returns the moment, or `day_ambiguous` for `3/1/2026`, `day_unreadable`
 */
export const momentOfCell = (text: string): Outcome<string> => {
  const iso = isoDay.exec(text)
  const dotted = dottedDay.exec(text)
  const [, year, month, day] = iso ?? (dotted ? ['', dotted[3], dotted[2], dotted[1]] : [])
  const time =
    iso?.[4] === undefined
      ? '12:00:00.000'
      : `${iso[4]}:${iso[5]}:${iso[6] ?? '00'}.${(iso[7] ?? '').padEnd(3, '0')}`
  const moment = `${year}-${two(month)}-${two(day)}T${time}Z`
  const parsed = new Date(moment)
  if (!Number.isNaN(parsed.getTime()) && parsed.toISOString() === moment) return accept(moment)
  return refuse(
    /^\d{1,2}\/\d{1,2}\/\d{2,4}$/.test(text)
      ? {
          code: 'day_ambiguous',
          message: `"${text}" may have its day or its month first. Write for example 2026-03-01.`,
          expected: '2026-03-01',
          received: text,
        }
      : {
          code: 'day_unreadable',
          message: `"${text}" is no day of the calendar as read here. Write for example 2026-03-01.`,
          expected: '2026-03-01',
          received: text,
        },
  )
}

/** Signs that one currency has. */
const currencySigns: Readonly<Record<string, string>> = {
  '€': 'EUR',
  '£': 'GBP',
  US$: 'USD',
  CA$: 'CAD',
  AU$: 'AUD',
  NZ$: 'NZD',
  '₹': 'INR',
  '₩': 'KRW',
  '₴': 'UAH',
  '₺': 'TRY',
  zł: 'PLN',
  Kč: 'CZK',
}
/** Signs that several have: which is meant is told beside. */
const sharedSigns: Readonly<Record<string, readonly string[]>> = {
  $: ['USD', 'CAD', 'AUD', 'NZD', 'SGD', 'HKD', 'MXN', 'BRL'],
  '¥': ['JPY', 'CNY'],
  kr: ['SEK', 'NOK', 'DKK', 'ISK'],
}
const named = `[A-Za-z]{3}|${[...Object.keys(currencySigns), ...Object.keys(sharedSigns)]
  .map((sign) => sign.replace('$', '\\$'))
  .join('|')}`
const price = new RegExp(`^(${named})?\\s*(\\d{1,9}(?:[.,]\\d{1,4})?)\\s*(${named})?$`)

/**
 * A price in a cell: `21.90`, `21,90`, `€ 21.90`, `$21.90`, `21.90 EUR`.
 *
 * @param currency - where the cell names none; '' where nobody knows
 * @returns `price_unreadable`, `currency_missing`
 */
export const priceOfCell = (text: string, currency: string): Outcome<PriceJson> => {
  const [, before = '', amount = '', after = ''] = price.exec(text) ?? []
  if (amount === '' || (before !== '' && after !== '')) {
    return refuse({
      code: 'price_unreadable',
      message: `"${text}" is no price as read here. Write for example 21.90 or 21.90 EUR.`,
      expected: '21.90',
      received: text,
    })
  }
  const mark = `${before}${after}` || currency.trim()
  const several = sharedSigns[mark]
  const beside = currency.trim().toUpperCase()
  if (several?.includes(beside) === false) {
    return refuse({
      code: 'currency_missing',
      message: `"${text}" may be ${several.slice(0, 3).join(', ')} or another. Say which the prices are in, for example ${several[0]}.`,
      expected: several.join(', '),
      received: text,
    })
  }
  const code = several === undefined ? (currencySigns[mark] ?? mark).toUpperCase() : beside
  if (/^[A-Z]{3}$/.test(code)) {
    return accept({ amount: amount.replace(',', '.'), currency: code })
  }
  return refuse({
    code: 'currency_missing',
    message: `"${text}" names no currency${code === '' ? '' : `, and "${code}" is none`}. Write for example 21.90 EUR.`,
    expected: '21.90 EUR',
    received: text,
  })
}

/** A colour on a screen in a cell: `#1F6FB2`, `1f6fb2`. @returns `srgb_unreadable` */
export const srgbOfCell = (text: string): Outcome<string> => {
  const [, code] = /^#?([0-9a-f]{6})$/i.exec(text) ?? []
  if (code !== undefined) return accept(`#${code.toLowerCase()}`)
  return refuse({
    code: 'srgb_unreadable',
    message: `"${text}" is no colour as read here. Write for example #1f6fb2.`,
    expected: '#1f6fb2',
    received: text,
  })
}

/** A colour by its name, its code or both; nothing where both are empty. */
export const colourOf = (name: string, srgb: string | undefined): ColourJson | undefined => {
  if (srgb === undefined) return name === '' ? undefined : { name }
  return { name: name === '' ? srgb : name, srgb }
}
