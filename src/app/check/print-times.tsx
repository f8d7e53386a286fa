import { type ReactNode, useId } from 'react'
import type { CheckJson } from '../../contract/index.ts'
import { timeWords } from '../strings/time-words.ts'
import styles from './check.module.css'
import type { StartAtHand } from './use-start.ts'

/** When the print ends, when its reel may run dry and when the last safe change comes. */
export function PrintTimes({
  check,
  isPlanned,
  layers,
  spiral,
  at: { typed, type, start, now },
}: {
  readonly check: CheckJson
  /** False while its times are still those of another printer. */
  readonly isPlanned: boolean
  readonly layers: number
  readonly spiral: boolean
  readonly at: StartAtHand
}): ReactNode {
  const field = useId()
  if (check.time === null) return null
  const sentences = isPlanned
    ? [
        timeWords.takes(check),
        ...(start === null
          ? []
          : [
              timeWords.ends(check, start, now),
              timeWords.dry(check, start, now),
              timeWords.change(check, { layers, spiral }, start, now),
            ]),
      ]
    : [timeWords.notPlanned]
  return (
    <section className={styles['times']} aria-label={timeWords.times}>
      <p>
        <label htmlFor={field}>{timeWords.start}</label>{' '}
        <input
          id={field}
          type="time"
          value={typed}
          onChange={(event) => type(event.target.value)}
        />
      </p>
      {sentences.map((sentence) => (sentence === null ? null : <p key={sentence}>{sentence}</p>))}
    </section>
  )
}
