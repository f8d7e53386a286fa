import { type ReelState, readingAt, reelState } from './shelf-state.ts'

/** A mass of filament and the water in it, where their product is expanded. */
export interface DampPoint {
  /** Dry mass, g, ≥ 0. */
  readonly mass: number
  /** Water over dry mass, ≥ 0. */
  readonly water: number
}

/** How often the product is expanded anew about what the reading makes of the reel. */
const again = 2

/**
 * Where (1 + w)·m is expanded, m = onNet·n + onLinear·λ: about what the reading itself makes of the
 * reel, the shared unknowns being where products are expanded (`shared`, in prior standard
 * deviations). Expanded first about what was expected before it, then twice about the outcome: a
 * reel of which only the gross is known would otherwise be expanded a kilogram off.
 *
 * @param state - before the reading, which stands in it with its weights on net and linear density of dry
 *   filament; `state.direct` holds those on the shared unknowns
 * @param most - no water beyond this share is expanded about
 * @param into - mass and water are written here
 */
export const dampPoint = (
  state: ReelState,
  shared: Float64Array,
  most: number,
  into: Float64Array,
): void => {
  const { spread: p, depth, direct, reading } = state
  const variance = reading[readingAt.variance]!
  const onTare = reading[readingAt.onTare]!
  const onNet = reading[readingAt.onNet]!
  const onLinear = reading[readingAt.onLinear]!
  const before = meanAt(state, shared, reelState.water)
  const dry =
    onNet * meanAt(state, shared, reelState.net) +
    onLinear * meanAt(state, shared, reelState.linear)
  let seen = reading[readingAt.value]! - onTare * meanAt(state, shared, reelState.tare)
  for (let j = 0; j < shared.length; j++) seen -= direct[j]! * shared[j]!
  let mass = Math.max(dry, 0)
  let water = Math.min(Math.max(before, 0), most)
  for (let i = 0; i < again; i++) {
    const hN = onNet * (1 + water)
    const hL = onLinear * (1 + water)
    // P·h, state by state.
    const ofTare = onTare * p[0]! + hN * p[1]! + hL * p[2]! + mass * p[3]!
    const ofNet =
      onTare * p[depth]! + hN * p[depth + 1]! + hL * p[depth + 2]! + mass * p[depth + 3]!
    const its = 2 * depth
    const ofLinear = onTare * p[its]! + hN * p[its + 1]! + hL * p[its + 2]! + mass * p[its + 3]!
    const last = 3 * depth
    const ofWater = onTare * p[last]! + hN * p[last + 1]! + hL * p[last + 2]! + mass * p[last + 3]!
    const s = onTare * ofTare + hN * ofNet + hL * ofLinear + mass * ofWater + variance
    const gain = (seen - (1 + water) * dry - mass * (before - water)) / s
    mass = Math.max(dry + gain * (onNet * ofNet + onLinear * ofLinear), 0)
    water = Math.min(Math.max(before + gain * ofWater, 0), most)
  }
  into[0] = mass
  into[1] = water
}

/** The water now, where products are expanded; between 0 and `most`. */
export const waterPoint = (state: ReelState, shared: Float64Array, most: number): number =>
  Math.min(Math.max(meanAt(state, shared, reelState.water), 0), most)

const meanAt = ({ mean, loads, k }: ReelState, shared: Float64Array, place: number): number => {
  let sum = mean[place]!
  for (let j = 0; j < k; j++) sum += loads[place * k + j]! * shared[j]!
  return sum
}
