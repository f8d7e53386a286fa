import type { ReelWorkingJson } from '../contract/index.ts'
import type { ReelWorking } from './reel-working.ts'

/** What the figures of a reel rest on, on the wire. */
export const workingToJson = ({ weighings, since, rests }: ReelWorking): ReelWorkingJson => ({
  weighings: weighings.map(({ fact, at, reading_g, whenNew, weightOnNet, off }) => ({
    fact,
    at,
    reading_g,
    when_new: whenNew,
    weight_on_net: weightOnNet,
    off,
  })),
  draws_since: since.draws,
  length_since_mm: since.length_mm,
  rests: rests.map(({ id, value, on, guessed }) => ({
    id,
    value: { value: value.value, u: value.u },
    on,
    guessed,
  })),
})
