import type { Pace } from '../estimate/index.ts'
import type { PrintTimes } from '../service/index.ts'
import { parseStart } from './parse-start.ts'
import type { Drawn } from './what-is-drawn.ts'

/**
 * The times of a print that was read; undefined where a length or mass stands in.
 *
 * @param start - as typed
 * @throws Fault as `parseStart`
 */
export const timesOf = (
  { source }: Pick<Drawn, 'source'>,
  pace: Pace,
  start: string | undefined,
  now: number,
): PrintTimes | undefined => {
  const time = source?.print.reading.time
  if (!time) return undefined
  return { time, pace, ...(start !== undefined && { start: parseStart(start, now) }) }
}
