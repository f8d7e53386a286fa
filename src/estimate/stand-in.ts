/**
 * One of several that stand for all that something in doubt may be. The weights of all together are 1;
 * a chance is the sum of the chances under each, times its weight.
 */
export interface StandIn<T> {
  /** Above 0. */
  readonly weight: number
  readonly of: T
}

/** The same weights, of what each leads to. */
export const standInsOf = <T, U>(
  standIns: readonly StandIn<T>[],
  lead: (of: T) => U,
): readonly StandIn<U>[] => standIns.map(({ weight, of }) => ({ weight, of: lead(of) }))
