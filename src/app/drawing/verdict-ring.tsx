import type { ReactNode } from 'react'
import { showChance } from '../strings/show-figure.ts'
import styles from './drawing.module.css'
import { type Call, ringArc } from './ring-arc.ts'

/** The verdict: its ring, its word and the chance, always together. */
export function VerdictRing({
  verdict,
  chance,
  large = false,
  stacked = large,
}: {
  readonly verdict: Call
  readonly chance: number
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
        <b>{verdict}</b> <span>{showChance(chance)}</span>
      </span>
    </span>
  )
}
