/**
 * A quantity with its standard uncertainty (k = 1) in the same unit.
 *
 * @see JCGM 100:2008, 2.3.1
 */
export interface Measured<Q extends number = number> {
  readonly value: Q
  /** Standard uncertainty, ≥ 0; 0 means taken as exact. */
  readonly u: number
}

/** Pairs a value with its standard uncertainty; `u` is 0 unless given. */
export const measured = <Q extends number>(value: Q, u = 0): Measured<Q> => ({ value, u })
