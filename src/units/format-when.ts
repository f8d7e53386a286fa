import { durationStep } from './format-duration.ts'

/** Made when first asked for: making one takes as long as reading a small print. */
const wordsFor = (options: Intl.DateTimeFormatOptions): ((at: number) => string) => {
  let made: Intl.DateTimeFormat | undefined
  return (at) => {
    made ??= new Intl.DateTimeFormat('en-GB', options)
    return made.format(at)
  }
}

const clock = wordsFor({ hour: '2-digit', minute: '2-digit' })
const weekday = wordsFor({ weekday: 'long' })
const shortWeekday = wordsFor({ weekday: 'short' })
const date = wordsFor({ weekday: 'short', day: 'numeric', month: 'short' })
const day = 24 * 3_600_000

/** A moment rounded to what its doubt lets be said, to the minute at least. */
const rounded = (at: number, doubt_s: number): number => {
  const step = 1000 * Math.max(60, Math.min(900, durationStep(doubt_s)))
  return Math.round(at / step) * step
}

/** `23:10`. @param doubt_s - its uncertainty, s */
export const formatHour = (at: number, doubt_s = 0): string => clock(rounded(at, doubt_s))

/** How many midnights lie between two moments, by the clock of this machine. */
const nights = (from: number, to: number): number =>
  Math.round((new Date(to).setHours(0, 0, 0, 0) - new Date(from).setHours(0, 0, 0, 0)) / day)

/** A day in a word or two, seen from another. */
const dayWord = (at: number, now: number): string => {
  const apart = nights(now, at)
  const near = ['yesterday', 'today', 'tomorrow'][apart + 1]
  return near ?? (apart > 1 && apart < 7 ? weekday(at) : date(at))
}

/**
 * What a moment lies between: `22:50 to 23:35`, and with the day of each that falls on another than the
 * moment: `today 23:40 to 00:50`, `03:15 to Friday 07:45`.
 *
 * @param about - the moment, as it is said itself with `doubt_s`
 * @param doubt_s - its uncertainty, s
 * @param now - the moment it is said at
 */
export const formatBetween = (
  [early, late]: readonly [early: number, late: number],
  about: number,
  now: number,
  doubt_s = 0,
): string => {
  const said = (at: number): string => {
    const moment = rounded(at, doubt_s)
    const isSameDay = nights(rounded(about, doubt_s), moment) === 0
    return isSameDay ? clock(moment) : `${dayWord(moment, now)} ${clock(moment)}`
  }
  return `${said(early)} to ${said(late)}`
}

/** How a moment is said. */
export interface HowSaid {
  /** Its uncertainty, s; more than none makes it `about`. */
  readonly doubt_s?: number
  /** What stands before the hour. */
  readonly word?: 'at' | 'from'
}

/**
 * A moment as people say it: `at 23:10`, `tomorrow at about 03:40`, `on Friday from 03:40`,
 * `on Mon 3 Jan at 03:40`.
 *
 * @param now - the moment it is said at
 */
export const formatWhen = (
  at: number,
  now: number,
  { doubt_s = 0, word = 'at' }: HowSaid = {},
): string => {
  const moment = rounded(at, doubt_s)
  const apart = nights(now, moment)
  const hour = `${word} ${doubt_s > 0 && word === 'at' ? 'about ' : ''}${clock(moment)}`
  if (apart === 0) return hour
  return `${Math.abs(apart) === 1 ? '' : 'on '}${dayWord(moment, now)} ${hour}`
}

/**
 * A moment by which something is done, short: `Mon 02:54`, and from a week on `Mon 7 Dec 02:54`.
 *
 * @param at - ms since 1970; rounded to the minute
 * @param now - the moment it is said at
 */
export const formatBy = (at: number, now: number): string => {
  const moment = rounded(at, 0)
  return `${nights(now, moment) < 7 ? shortWeekday(moment) : date(moment)} ${clock(moment)}`
}

const two = (part: number): string => `${part}`.padStart(2, '0')

/** The day of a moment by the clock of this machine, as it is written in columns and fields: `2025-10-18`. */
export const formatIsoDay = (moment: string | number): string => {
  const at = new Date(moment)
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`
}

/** The same with the hour: `2025-10-18 14:30`. */
export const formatIsoMinute = (moment: string | number): string => {
  const at = new Date(moment)
  return `${formatIsoDay(moment)} ${two(at.getHours())}:${two(at.getMinutes())}`
}
