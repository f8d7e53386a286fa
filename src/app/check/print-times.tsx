import type { ReactNode } from 'react'
import type { CheckJson } from '../../contract/index.ts'
import { ClockField } from '../field/clock-field.tsx'
import { timeWords } from '../strings/time-words.ts'
import styles from './check.module.css'
import type { StartAtHand } from './use-start.ts'

/** When the print ends, when its reel may run dry and when the last safe change comes. */
export function PrintTimes({
  check,
  isPlanned,
  layers,
  spiral,
  at: { typed, type, start, now, box },
}: {
  readonly check: CheckJson
  /** False while its times are still those of another printer. */
  readonly isPlanned: boolean
  readonly layers: number
  readonly spiral: boolean
  readonly at: StartAtHand
}): ReactNode {
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
      <ClockField label={timeWords.start} typed={typed} onTyped={type} box={box} />
      {sentences.map((sentence) => (sentence === null ? null : <p key={sentence}>{sentence}</p>))}
    </section>
  )
}
