import { timeOfDay } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { parseMoment } from './parse-moment.ts'

const hours = /^(\d{1,2}):(\d\d)$/
/** The last moment there is. */
const ever = 8.64e15

/**
 * A moment near now, as typed: `now`, `21:30` by the clock of this machine, or a date with a time.
 * A time of day is the last one when it is no more than six hours past, or else the next.
 *
 * @param now - ms since 1970
 * @returns ms since 1970
 * @throws Fault `start_malformed`, and as `parseMoment`
 */
export const parseSoon = (typed: string, now: number, option: string, hint = ''): number => {
  const text = typed.trim()
  if (text.toLowerCase() === 'now') return now
  const [, hour, minute] = hours.exec(text) ?? []
  if (hour === undefined) {
    if (/^\d{4}-\d\d-\d\d[ T]/.test(text)) return Date.parse(parseMoment(text, ever, option))
    throw malformed(typed, option, hint)
  }
  if (Number(hour) > 23 || Number(minute) > 59) throw malformed(typed, option, hint)
  return timeOfDay(Number(hour), Number(minute), now)
}

/**
 * A moment still to come, as typed: `21:30` by the clock of this machine, the next there is, or a date with a
 * time.
 *
 * @param now - ms since 1970
 * @returns ms since 1970
 * @throws Fault `moment_past`, and as `parseSoon`
 */
export const parseNext = (typed: string, now: number, option: string): number => {
  const at = parseSoon(typed, now, option)
  if (at > now || typed.trim().toLowerCase() === 'now') return at
  if (hours.test(typed.trim())) return nextDay(at)
  throw usageFault(
    'moment_past',
    `${option}: ${typed.trim()} is past. Give a moment that is still to come; check the date, and the clock.`,
    option,
  )
}

/** By the clock on the wall: a day is not always 24 hours. */
const nextDay = (at: number): number => {
  const day = new Date(at)
  return day.setDate(day.getDate() + 1)
}

const malformed = (typed: string, option: string, hint: string): Error =>
  usageFault(
    'start_malformed',
    `${option}: "${typed}" is no moment. Write 21:30, now or '2026-03-01 21:30'.${hint}`,
    option,
  )

/** When a print is started; as `parseSoon`. */
export const parseStart = (typed: string, now: number): number =>
  parseSoon(
    typed,
    now,
    '--start',
    ' Filament used before the file begins is told by --start-allowance.',
  )
