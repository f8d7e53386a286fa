import { formatIsoDay } from '../units/index.ts'
import { usageFault } from './fault.ts'

const form =
  /^(\d{4})-(\d\d)-(\d\d)(?:[ T](\d\d):(\d\d)(?::(\d\d)(?:\.(\d{1,3}))?)?\s*(Z|[+-]\d\d:?\d\d)?)?$/i

/** A day without an hour stands for noon of that day, or for now while it is not yet noon. */
const noon = 12

/**
 * A moment as a person types it: `18:30` (of today, or of last night), `2026-03-01`, `2026-03-01 18:30` by the clock of this machine, or
 * with seconds and a zone.
 *
 * @param now - ms since 1970; what lies after it is refused
 * @returns UTC to the millisecond, as the ledger keeps it
 * @throws Fault `moment_malformed`, `moment_in_future`
 */
export const parseMoment = (typed: string, now: number, option: string): string => {
  const found = form.exec(withDay(typed.trim(), now))
  if (found === null) throw malformed(typed, option)
  const [year, month, day, hour, minute, second, part] = found
    .slice(1, 8)
    .map((digits) => (digits === undefined ? undefined : Number(digits)))
  const zone = found[8]
  const fields = [year!, month! - 1, day!, hour ?? noon, minute ?? 0, second ?? 0] as const
  const at = new Date(2000, 0)
  at.setFullYear(fields[0], fields[1], fields[2])
  at.setHours(fields[3], fields[4], fields[5], part === undefined ? 0 : thousandths(found[7]!))
  if (zone === undefined) {
    const read = [at.getMonth(), at.getDate(), at.getHours(), at.getMinutes(), at.getSeconds()]
    if (read.some((field, i) => field !== fields[i + 1])) throw malformed(typed, option)
    if (hour === undefined && at.getTime() > now && isSameDay(at, new Date(now))) {
      return new Date(now).toISOString()
    }
    return notAfter(at.getTime(), now, typed, option)
  }
  if (!isOfCalendar(fields)) throw malformed(typed, option)
  const utc = Date.parse(
    typed
      .trim()
      .replace(' ', 'T')
      .replace(/\s+/, '')
      .replace(/([+-]\d\d)(\d\d)$/, '$1:$2')
      .toUpperCase(),
  )
  if (Number.isNaN(utc)) throw malformed(typed, option)
  return notAfter(utc, now, typed, option)
}

const lastNight_ms = 12 * 3_600_000

/** An hour alone is today's, or yesterday's where that is less than half a day ago and today's is to come. */
const withDay = (typed: string, now: number): string => {
  const hour = /^(\d{1,2}):(\d\d)$/.exec(typed)
  if (hour === null || !Number.isFinite(now)) return typed
  const [hours, minutes] = [Number(hour[1]), Number(hour[2])]
  const today = new Date(now).setHours(hours, minutes, 0, 0)
  const yesterday = new Date(now)
  yesterday.setDate(yesterday.getDate() - 1)
  const before = yesterday.setHours(hours, minutes, 0, 0)
  const day = today > now && now - before < lastNight_ms ? before : now
  return `${formatIsoDay(day)} ${typed.padStart(5, '0')}`
}

type Fields = readonly [number, number, number, number, number, number]

/** Date.parse takes the 30th of February for the 2nd of March. */
const isOfCalendar = ([year, month, day, ...time]: Fields): boolean => {
  const at = new Date(0)
  at.setUTCFullYear(year, month, day)
  at.setUTCHours(...time)
  const read = [at.getUTCMonth(), at.getUTCDate(), at.getUTCHours()]
  return read[0] === month && read[1] === day && read[2] === time[0]
}

const thousandths = (digits: string): number => Number(digits.padEnd(3, '0'))

const isSameDay = (a: Date, b: Date): boolean => a.toDateString() === b.toDateString()

const notAfter = (at: number, now: number, typed: string, option: string): string => {
  if (at <= now) return new Date(at).toISOString()
  throw usageFault(
    'moment_in_future',
    `${option}: ${typed} is still to come, so nothing is known of it; check the date, and the clock.`,
    option,
  )
}

const malformed = (typed: string, option: string): Error =>
  usageFault(
    'moment_malformed',
    `${option}: "${typed}" is no moment. Write 18:30, 2026-03-01, '2026-03-01 18:30' or 2026-03-01T18:30:00Z.`,
    option,
  )

/** A moment that may be still to come; a day without an hour is meant to its end. @throws Fault */
export const parseDue = (typed: string, option: string): string => {
  const isDay = /^\d{4}-\d\d-\d\d$/.test(typed.trim())
  return parseMoment(isDay ? `${typed.trim()} 23:59` : typed, Infinity, option)
}
