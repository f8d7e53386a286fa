import type { ReactNode } from 'react'
import { drawingWords } from '../strings/drawing-words.ts'
import { showChance } from '../strings/show-figure.ts'
import styles from './drawing.module.css'
import { type Call, ringArc } from './ring-arc.ts'

/** The verdict: its ring, its word and the chance that there is to be told, always together. */
export function VerdictRing({
  verdict,
  chance,
  large = false,
  stacked = large,
}: {
  readonly verdict: Call
  /** Null where none is to be told: what is known does not agree. */
  readonly chance: number | null
  readonly large?: boolean
  /** The chance below the word, as it is where large. */
  readonly stacked?: boolean
}): ReactNode {
  const size = large ? 64 : 20
  const stroke = large ? 6 : 3
  const half = size / 2
  return (
    <span
      className={`${styles['verdict']} ${styles[verdict]} ${large ? styles['large'] : ''} ${stacked ? styles['stacked'] : ''}`}
    >
      <svg
        width={size}
        height={size}
        viewBox={`${-half} ${-half} ${size} ${size}`}
        aria-hidden="true"
      >
        <path
          d={ringArc(verdict, half - stroke / 2)}
          strokeWidth={stroke}
          className={styles['ring']}
        />
      </svg>
      <span className={styles['words']}>
        <b>{verdict}</b>{' '}
        {chance === null && !large ? null : (
          <span className={chance === null ? styles['noChance'] : undefined}>
            {chance === null ? drawingWords.noChance : showChance(chance)}
          </span>
        )}
      </span>
    </span>
  )
}
