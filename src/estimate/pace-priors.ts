import type { Source } from '../filament/index.ts'
import type { Measured } from '../units/index.ts'

/** What is believed of how long a printer takes before any of its prints was timed. */
export interface PacePriors {
  /** ln of the seconds before the file begins. */
  readonly preparation: Measured
  /** ln of what moves take over what was planned. */
  readonly moves: Measured
  /** ln of what waits take over what is usual. */
  readonly waits: Measured
  /** How far prints of one printer differ, as a share of their moves' time. */
  readonly scatter: number
  /** How well a duration is told, s. */
  readonly reading_s: number
  /** Usual length of each wait of the machine, s. */
  readonly waits_s: Readonly<Record<string, number>>
  /** What a stop for a person takes, s: each on its own. */
  readonly person_s: Measured
  readonly source: Source
}

/**
 * Priors of the pace.
 *
 * Heating a bed 2 to 8 min, a nozzle 1 to 3 min, homing and probing 0.5 to 5 min, from memory; moves within
 * a few per cent of the plan where limits are known, half as long again where they are not, second-hand.
 * The others: common practice, no source.
 */
export const pacePriors: PacePriors = {
  preparation: { value: Math.log(60), u: 0.8 },
  moves: { value: 0, u: 0.1 },
  waits: { value: 0, u: 0.4 },
  scatter: 0.02,
  reading_s: 20,
  waits_s: { bed: 240, nozzle: 100, chamber: 600, homing: 25, probing: 120, tool: 20 },
  person_s: { value: 600, u: 600 },
  source: {
    standing: 'from memory',
    where: 'docs/method/time.md, section 8',
  },
}
