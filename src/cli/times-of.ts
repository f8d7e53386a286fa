import type { Pace } from '../estimate/index.ts'
import type { PrintTimes } from '../service/index.ts'
import { parseStart } from './parse-start.ts'
import type { Drawn } from './what-is-drawn.ts'

/** How a printer keeps to the plan, and when the print is started, ms since 1970, where that is told. */
export interface Timing {
  readonly pace: Pace
  readonly start?: number
}

/** What was told of the start. @throws Fault as `parseStart` */
export const startTold = (typed: string | undefined): Pick<Timing, 'start'> =>
  typed === undefined ? {} : { start: parseStart(typed, Date.now()) }

/** The times of a print that was read; undefined where a length or mass stands in. */
export const timesOf = (
  { time, layers }: Pick<Drawn, 'time' | 'layers'>,
  timing: Timing,
): PrintTimes | undefined =>
  time === undefined ? undefined : { time, ...timing, ...(layers && { layers }) }
