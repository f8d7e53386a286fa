import type { PrintRowJson, StoppedAtJson, TimedJson } from '../contract/index.ts'
import { readingOfRow } from '../ledger/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { waitsByKind } from './clock-to-json.ts'

/** What was told of how long a print took. */
interface TookTold {
  readonly took_s?: number
  readonly stoppedAt?: StoppedAtJson
}

/**
 * How long a print took beside what was planned, as its fact keeps it.
 *
 * @returns undefined where nothing was told; `took_needs_print`, `took_needs_end`, `took_without_plan`
 */
export const timedOf = (
  print: PrintRowJson | undefined,
  { took_s, stoppedAt }: TookTold,
): Outcome<TimedJson | undefined> => {
  if (took_s === undefined) return accept(undefined)
  if (print === undefined) {
    return refuse({
      code: 'took_needs_print',
      message: 'How long it took is told of a print, not of a length.',
    })
  }
  if (stoppedAt !== undefined) {
    return refuse({
      code: 'took_needs_end',
      message: 'How long it took teaches only of a print that was finished. Leave it out.',
    })
  }
  const { time } = readingOfRow(print)
  if (!time) {
    return refuse({
      code: 'took_without_plan',
      message: 'This print was kept without its times. Give its file again, and it is learnt from.',
    })
  }
  return accept({
    took_s,
    planned_s: time.total_s,
    waits: Object.fromEntries(waitsByKind(time)),
  })
}
