import type { ReactNode } from 'react'
import { type Figure, type MassUnit, partsOf, showMass } from '../strings/show-figure.ts'
import styles from './figure.module.css'

/** A mass with its uncertainty in smaller type. */
export function MassFigure({
  mass,
  unit,
}: {
  readonly mass: Figure
  readonly unit: MassUnit
}): ReactNode {
  const [value, rest] = partsOf(showMass(mass, unit))
  return (
    <span className={styles['figure']}>
      {value}
      <small>{rest}</small>
    </span>
  )
}
