import type { FactJson } from '../contract/index.ts'
import { formatIsoDay, type Refusal } from '../units/index.ts'

/** Clocks may be so far apart, ms. */
export const clocksApart = 86_400_000

/** Why a fact can not have happened when it says: it was written down before. */
export const inTheFuture = ({ at, recorded_at }: FactJson): Refusal | undefined =>
  Date.parse(at) > Date.parse(recorded_at) + clocksApart
    ? {
        code: 'in_the_future',
        message: `A fact can not be dated ${formatIsoDay(at)}: it is written down on ${formatIsoDay(recorded_at)}. Check the date.`,
        expected: `${formatIsoDay(recorded_at)} or before`,
        received: at,
      }
    : undefined
