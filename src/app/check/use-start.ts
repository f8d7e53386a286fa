import { type RefObject, useEffect, useRef, useState } from 'react'
import { accept, type Outcome, timeOfDay } from '../../units/index.ts'
import { parseClock } from '../field/parse-clock.ts'

/** When the print is started, as a person has it. */
export interface StartAtHand {
  /** As the field has it, `21:30`. */
  readonly typed: string
  readonly type: (typed: string) => void
  /** ms since 1970; null where what is typed is no time of day. */
  readonly start: number | null
  /** Whether a person told it. */
  readonly isTold: boolean
  /** Goes on with the clock again. */
  readonly forget: () => void
  /** To the minute; stands still once a time was told. */
  readonly now: number
  /** Stands around the field in which it is typed. */
  readonly box: RefObject<HTMLDivElement | null>
}

/**
 * When a print that is started now is said to have been started, ms since 1970: a field that was cleared says
 * nothing.
 *
 * @returns as `parseClock`, where what is typed can not be read
 */
export const startTold = (
  { typed, isTold, start }: Pick<StartAtHand, 'typed' | 'isTold' | 'start'>,
  now: number,
): Outcome<number> => {
  if (!isTold || typed.trim() === '') return accept(now)
  const read = parseClock(typed)
  return read.ok ? accept(start ?? now) : read
}

const two = (part: number): string => String(part).padStart(2, '0')

const clockOf = (at: number): string => {
  const moment = new Date(at)
  return `${two(moment.getHours())}:${two(moment.getMinutes())}`
}

/** As often the clock is looked at, ms. */
const look = 5000

/** Now, as the clock goes on, unless a person tells another time of day. */
export function useStart(): StartAtHand {
  const [now, setNow] = useState(() => toMinute(Date.now()))
  const [told, type] = useState<string | null>(null)
  const box = useRef<HTMLDivElement>(null)
  const isTold = told !== null
  useEffect(() => {
    if (isTold) return undefined
    const timer = setInterval(() => setNow(toMinute(Date.now())), look)
    return () => clearInterval(timer)
  }, [isTold])
  const typed = told ?? clockOf(now)
  const read = parseClock(typed)
  const [hour = Number.NaN, minute = Number.NaN] = (read.ok ? read.value : '')
    .split(':')
    .map(Number)
  const start = timeOfDay(hour, minute, now)
  return {
    typed,
    type,
    isTold,
    forget: () => type(null),
    start: Number.isFinite(start) ? start : null,
    now,
    box,
  }
}

const toMinute = (at: number): number => at - (at % 60_000)
