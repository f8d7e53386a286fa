import { accept, type Outcome, refuse } from '../../units/index.ts'
import { fieldWords } from '../strings/field-words.ts'

const two = (part: number): string => String(part).padStart(2, '0')

const clock = /^(\d{1,2})[:.h ]?(\d\d)$/

/**
 * A time of day by the clock of 24 hours: `21:30`, `9:05`, `2130`, whatever the browser's language.
 *
 * @returns `21:30`, or `clock_malformed`
 */
export const parseClock = (typed: string): Outcome<string> => {
  const [, hour = '24', minute = '60'] = clock.exec(typed.trim()) ?? []
  return Number(hour) < 24 && Number(minute) < 60
    ? accept(`${two(Number(hour))}:${minute}`)
    : refuse({ code: 'clock_malformed', message: fieldWords.noClock(typed), received: typed })
}

// In full, so that half of a day that is being typed is none.
const day = /^(\d{4})-(\d\d)-(\d\d)$/

const isOfCalendar = (year: number, month: number, date: number): boolean => {
  const at = new Date(Date.UTC(2000, 0, 1))
  at.setUTCFullYear(year, month - 1, date)
  return at.getUTCMonth() === month - 1 && at.getUTCDate() === date
}

/**
 * A day of the calendar: `2026-03-01`.
 *
 * @param within - first and last that are taken, as it is returned
 * @returns `2026-03-01`, or `day_malformed`, `day_out_of_bounds`
 */
export const parseDay = (
  typed: string,
  within?: readonly [first: string, last: string],
): Outcome<string> => {
  const found = day.exec(typed.trim())?.slice(1).map(Number)
  const [year = 0, month = 0, date = 0] = found ?? []
  if (found === undefined || !isOfCalendar(year, month, date)) {
    return refuse({ code: 'day_malformed', message: fieldWords.noDay(typed), received: typed })
  }
  const read = `${String(year).padStart(4, '0')}-${two(month)}-${two(date)}`
  if (within === undefined || (read >= within[0] && read <= within[1])) return accept(read)
  return refuse({
    code: 'day_out_of_bounds',
    message: fieldWords.dayBetween(within),
    received: typed,
  })
}

/** A day without an hour lasts until it is over. */
const endOfDay = '23:59'

/**
 * A moment by the clock where the person is: `2026-03-01 21:30`, or a day, which is its end.
 *
 * @returns `2026-03-01 21:30`, or `moment_malformed`
 */
export const parseMoment = (typed: string): Outcome<string> => {
  const [first = '', ...rest] = typed.trim().split(/[ T]+/)
  const on = parseDay(first)
  const at = rest.length === 0 ? accept(endOfDay) : parseClock(rest.join(':'))
  return on.ok && at.ok
    ? accept(`${on.value} ${at.value}`)
    : refuse({ code: 'moment_malformed', message: fieldWords.noMoment(typed), received: typed })
}
