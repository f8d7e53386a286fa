import type { ReactNode } from 'react'
import { type Figure, type MassUnit, showMass } from '../strings/show-figure.ts'
import { SaidFigure } from './said-figure.tsx'

/** A mass with its uncertainty in smaller type. */
export function MassFigure({
  mass,
  unit,
}: {
  readonly mass: Figure
  readonly unit: MassUnit
}): ReactNode {
  return <SaidFigure said={showMass(mass, unit)} />
}
