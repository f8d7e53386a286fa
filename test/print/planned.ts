import { MotionLimits, type MotionOptions } from '../../src/print/motion-limits.ts'
import { MovePlanner, moveColumns } from '../../src/print/move-planner.ts'
import type { TwinMove } from './twin-motion.ts'

export interface HowPlanned {
  /** Moves given at once; 50 unless said. */
  readonly slice?: number
  /** Moves that the planner's window holds at first. */
  readonly window?: number
}

/** The planner after a path that begins and ends at rest, and a ticket for the end of each move. */
export const planPath = (
  path: readonly TwinMove[],
  options: MotionOptions,
  { slice = 50, window }: HowPlanned = {},
): { readonly planner: MovePlanner; readonly tickets: readonly number[] } => {
  const planner = new MovePlanner(new MotionLimits(options), window)
  const tickets: number[] = []
  const rows = new Float64Array(slice * moveColumns)
  let held = 0
  const give = (): void => {
    planner.take(rows, held)
    held = 0
  }
  for (const { way, feed, speed, afterRest } of path) {
    if (afterRest === true) {
      give()
      planner.stop()
    }
    rows.set([...way, feed, speed * 60], held++ * moveColumns)
    if (held === slice) give()
    if (slice === 1) tickets.push(planner.ask())
  }
  give()
  planner.finish()
  return { planner, tickets }
}

/** Time at the end of each move of a path, s. */
export const plannedTimes = (
  path: readonly TwinMove[],
  options: MotionOptions,
  how: HowPlanned = {},
): number[] => {
  const { planner, tickets } = planPath(path, options, { ...how, slice: 1 })
  return tickets.map((ticket) => planner.timeOf(ticket))
}

/** Time of a whole path, s. */
export const plannedTime = (path: readonly TwinMove[], options: MotionOptions): number =>
  planPath(path, options).planner.time
