import { useState } from 'react'
import { timeOfDay } from '../../units/index.ts'

/** When the print is started, as a person has it. */
export interface StartAtHand {
  /** As the field has it, `21:30`. */
  readonly typed: string
  readonly type: (typed: string) => void
  /** ms since 1970; null where what is typed is no time of day. */
  readonly start: number | null
  /** When the sheet was opened. */
  readonly now: number
}

const two = (part: number): string => String(part).padStart(2, '0')

const clockOf = (at: number): string => {
  const moment = new Date(at)
  return `${two(moment.getHours())}:${two(moment.getMinutes())}`
}

/** Now, unless a person tells another time of day. */
export function useStart(): StartAtHand {
  const [now] = useState(() => Date.now())
  const [typed, type] = useState(() => clockOf(now))
  const [hour = Number.NaN, minute = Number.NaN] = typed.split(':').map(Number)
  const start = timeOfDay(hour, minute, now)
  return { typed, type, start: Number.isFinite(start) ? start : null, now }
}
