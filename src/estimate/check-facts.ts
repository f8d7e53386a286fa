import { findMaterial, type Scale } from '../filament/index.ts'
import {
  accept,
  capitalised,
  type Measured,
  type Outcome,
  type Refusal,
  refuse,
} from '../units/index.ts'
import type { ReelFacts, Weighing } from './reel-facts.ts'

/** A lower bound that lets zero through. */
const fromZero = -Number.MIN_VALUE

/** What may be, physically, for a reel a person can carry. Outside it a unit was mistaken. */
const bounds = {
  mass: { low: 0, high: 100_000, unit: 'g' },
  density: { low: 0.3, high: 12, unit: 'g/cm³' },
  diameter: { low: 0.5, high: 10, unit: 'mm' },
  size: { low: 0, high: 2_000, unit: 'mm' },
  cut: { low: 0, high: 1_000_000, unit: 'mm' },
  length: { low: fromZero, high: 1e8, unit: 'mm' },
  linearDensity: { low: 0.1, high: 500, unit: 'g/m' },
  packing: { low: 0.2, high: 1, unit: 'of the volume' },
} as const

/**
 * Refuses what can not be true of any reel: code `impossible_input`, or `material_unknown`,
 * `winding_below_hub`.
 *
 * @returns the facts as they came
 */
export const checkFacts = (facts: ReelFacts): Outcome<ReelFacts> => {
  const found = problems(facts).next()
  return found.done === true ? accept(facts) : refuse(found.value)
}

function* problems(facts: ReelFacts): Generator<Refusal, void> {
  yield* weighingProblems('the weighing now', facts.grossNow)
  yield* weighingProblems('the weighing when new', facts.grossWhenNew)
  yield* scaleProblems(facts.scale)
  if (facts.tare?.kind === 'weighed')
    yield* weighingProblems('the empty carrier', facts.tare.weighing)
  if (facts.tare?.kind === 'stated') {
    yield* outside('the tare', facts.tare.tare, { ...bounds.mass, low: fromZero })
  }
  yield* outside('the net mass on the label', bare(facts.labelNet), bounds.mass)
  yield* outside('the density', facts.density, bounds.density)
  yield* outside('the nominal diameter', facts.nominalDiameter, bounds.diameter)
  if (facts.calipers?.places.length === 0) {
    yield impossible('the caliper readings', 'at least one place', 'none')
  }
  for (const [first, second] of facts.calipers?.places ?? []) {
    yield* outside('a diameter', first, bounds.diameter)
    yield* outside('a diameter', second, bounds.diameter)
  }
  yield* outside('the cut length', facts.cutLength?.length, bounds.cut)
  yield* weighingProblems('the weighing of the cut length', facts.cutLength?.weighing)
  yield* outside('the linear density', facts.linearDensity, bounds.linearDensity)
  yield* outside('the hub', facts.winding?.hub, bounds.size)
  yield* outside('the winding’s diameter', facts.winding?.outer, bounds.size)
  yield* outside('the winding’s width', facts.winding?.width, bounds.size)
  yield* outside('the packing', facts.packing, bounds.packing)
  yield* outside('the stated net mass', facts.statedNet, { ...bounds.mass, low: fromZero })
  yield* outside('the stated length', facts.statedLength, bounds.length)
  if (facts.material !== undefined) {
    const material = findMaterial(facts.material)
    if (!material.ok) {
      const { refusal } = material
      yield { ...refusal, message: `${refusal.message} Or give a measured linear density.` }
    }
  }
}

function* outside(
  what: string,
  quantity: Measured | undefined,
  { low, high, unit }: { readonly low: number; readonly high: number; readonly unit: string },
): Generator<Refusal, void> {
  if (quantity === undefined) return
  const { value, u } = quantity
  if (!(value > low && value < high)) {
    const expected = `${low === fromZero ? 'from 0' : `more than ${low}`} to less than ${high} ${unit}`
    yield impossible(what, expected, `${value} ${unit}`)
  } else if (!(u >= 0 && u < Infinity)) {
    yield impossible(`the uncertainty of ${what}`, 'a number of 0 or more', String(u))
  }
}

function* weighingProblems(what: string, seen: Weighing | undefined): Generator<Refusal, void> {
  if (seen === undefined) return
  yield* outside(what, { value: seen.reading, u: seen.u ?? 0 }, bounds.mass)
  yield* outside(`what else is on the scale in ${what}`, seen.extra, {
    ...bounds.mass,
    low: fromZero,
  })
  yield* scaleProblems(seen.scale)
}

function* scaleProblems(scale: Scale | undefined): Generator<Refusal, void> {
  if (scale === undefined) return
  const { displayStep, repeatability, gain } = scale
  if (!(displayStep >= 0 && repeatability >= 0 && gain >= 0 && gain < 0.5)) {
    yield impossible(
      'the scale',
      'a display step and a repeatability of 0 g or more, and a gain error below one half',
      `${displayStep} g, ${repeatability} g, ${gain}`,
    )
  }
}

const bare = (value: number | undefined): Measured | undefined =>
  value === undefined ? undefined : { value, u: 0 }

const impossible = (what: string, expected: string, received: string): Refusal => ({
  code: 'impossible_input',
  message: `${capitalised(what)} can not be ${received}: expected ${expected}. Check the unit.`,
  expected,
  received,
})
