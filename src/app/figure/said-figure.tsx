import type { ReactNode } from 'react'
import { partsOf } from '../strings/show-figure.ts'
import styles from './figure.module.css'

/** A figure in words, its uncertainty in smaller type. */
export function SaidFigure({ said }: { readonly said: string }): ReactNode {
  const [value, rest] = partsOf(said)
  return (
    <span className={styles['figure']}>
      {value}
      <small>{rest}</small>
    </span>
  )
}
