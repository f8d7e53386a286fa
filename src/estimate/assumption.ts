import type { Source } from '../filament/index.ts'
import type { Measured } from '../units/index.ts'
import type { Prior } from './priors.ts'

/** A prior that stands in for something nobody measured. */
export interface Assumption {
  /** Stable, snake_case. */
  readonly id: string
  readonly what: string
  readonly value: number
  readonly u: number
  readonly unit: Prior['unit']
  readonly source: Source
}

/** Takes note that a prior is used, and hands over its value. */
export type Assume = (id: string, what: string, prior: Prior, held?: Measured) => Measured
