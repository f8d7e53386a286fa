import { type ReactNode, useId, useState } from 'react'
import type { CheckJson } from '../../contract/index.ts'
import { timeOfDay } from '../../units/index.ts'
import { timeWords } from '../strings/time-words.ts'
import styles from './check.module.css'

const two = (part: number): string => String(part).padStart(2, '0')

const clockOf = (at: number): string => {
  const moment = new Date(at)
  return `${two(moment.getHours())}:${two(moment.getMinutes())}`
}

/** When the print ends, when its reel may run dry and when the last safe change comes. */
export function PrintTimes({
  check,
  layers,
  spiral,
}: {
  readonly check: CheckJson
  readonly layers: number
  readonly spiral: boolean
}): ReactNode {
  const [now] = useState(() => Date.now())
  const [typed, setTyped] = useState(() => clockOf(now))
  const field = useId()
  if (check.time === null) return null
  const [hour = Number.NaN, minute = Number.NaN] = typed.split(':').map(Number)
  const start = timeOfDay(hour, minute, now)
  const isTold = Number.isFinite(start)
  const sentences = [
    timeWords.takes(check),
    ...(isTold
      ? [
          timeWords.ends(check, start, now),
          timeWords.dry(check, start, now),
          timeWords.change(check, { layers, spiral }, start, now),
        ]
      : []),
  ]
  return (
    <section className={styles['times']} aria-label={timeWords.about}>
      <p>
        <label htmlFor={field}>{timeWords.start}</label>{' '}
        <input
          id={field}
          type="time"
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
      </p>
      {sentences.map((sentence) => (sentence === null ? null : <p key={sentence}>{sentence}</p>))}
    </section>
  )
}
