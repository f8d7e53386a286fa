import type { ReactNode } from 'react'
import styles from './drawing.module.css'

/** A short piece of filament in its colour. */
export const Swatch = ({ colour }: { readonly colour: string | null }): ReactNode => (
  <svg width="20" height="10" aria-hidden="true" className={styles['swatch']}>
    <rect
      x="0.5"
      y="0.5"
      width="19"
      height="9"
      fill={colour ?? 'none'}
      stroke="var(--ink)"
      strokeDasharray={colour === null ? '3 2' : undefined}
      className={styles['filament']}
    />
  </svg>
)
