import {
  jointNormal,
  type LinearForm,
  type ReelBelief,
  type ReelFacts,
  reckonReel,
} from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import {
  grams,
  gramsPerCubicCentimetre,
  type Measured,
  measured,
  millimetres,
} from '../../src/units/index.ts'
import type { Printer } from '../../src/verdict/index.ts'

/** A printer that does exactly what it is told and leaves no tail. */
export const exactPrinter: Printer = {
  feedFactor: measured(1),
  startAllowance_mm: measured(millimetres(0)),
  tail_mm: measured(millimetres(0)),
}

/** PLA of 1.24 g/cm³ and 1.75 mm. */
export const pla: ReelFacts = {
  material: 'PLA',
  density: measured(gramsPerCubicCentimetre(1.24)),
  nominalDiameter: measured(millimetres(1.75)),
}

/** The belief the facts lead to; throws where they are refused. */
export const believe = (facts: ReelFacts): ReelBelief => {
  const outcome = reckonReel(facts)
  if (!outcome.ok) throw new Error(`${outcome.refusal.code}: ${outcome.refusal.message}`)
  return outcome.value
}

/** A weighing of so many grams on the kitchen scale. */
export const weighing = (reading: number): { reading: ReturnType<typeof grams> } => ({
  reading: grams(reading),
})

/** A reel of 1 kg that weighs `gross`, its carrier weighed at 250 g or unknown. */
export const reelOf = (gross: number, carrier?: number): ReelBelief =>
  believe({
    grossNow: weighing(gross),
    ...(carrier !== undefined && { tare: { kind: 'weighed', weighing: weighing(carrier) } }),
    ...pla,
  })

const one = (name: string): LinearForm => ({ terms: { [name]: 1 } })

/** A belief with net mass and linear density just as given, and nothing else uncertain. */
export const beliefOf = (net: Measured, linearDensity: Measured): ReelBelief => ({
  joint: jointNormal({
    net,
    linearDensity,
    tare: measured(250),
    area: measured(2.405),
    gain: measured(0),
  }),
  net: one('net'),
  linearDensity: one('linearDensity'),
  tare: one('tare'),
  area: one('area'),
  gain: one('gain'),
  scale: kitchenScale,
  used: [],
  assumed: [],
  notices: [],
})
