import { type ReelState, reelState } from './shelf-state.ts'

/** A mass of filament and the water in it, where their product is expanded. */
export interface DampPoint {
  /** Dry mass, g, ≥ 0. */
  readonly mass: number
  /** Water over dry mass, ≥ 0. */
  readonly water: number
}

/** Masses of filament on the scale: `onNet`·n + `onLinear`·λ, with the water that is in it. */
export interface DampReading {
  readonly value: number
  readonly variance: number
  readonly onTare: number
  readonly onNet: number
  readonly onLinear: number
}

/** How often the product is expanded anew about what the reading makes of the reel. */
const again = 2

/**
 * Where (1 + w)·m is expanded, m = onNet·n + onLinear·λ: about what the reading itself makes of the
 * reel, the shared unknowns being where products are expanded (`shared`, in prior standard
 * deviations). Expanded first about what was expected before it, then twice about the outcome: a
 * reel of which only the gross is known would otherwise be expanded a kilogram off.
 *
 * @param state - before the reading; `state.direct` holds the reading's weights on the shared
 * @param most - no water beyond this share is expanded about
 */
export const dampPoint = (
  state: ReelState,
  shared: Float64Array,
  { value, variance, onTare, onNet, onLinear }: DampReading,
  most: number,
): DampPoint => {
  const { spread: p, depth, direct } = state
  const before = meanAt(state, shared, reelState.water)
  const dry =
    onNet * meanAt(state, shared, reelState.net) +
    onLinear * meanAt(state, shared, reelState.linear)
  let seen = value - onTare * meanAt(state, shared, reelState.tare)
  for (let j = 0; j < shared.length; j++) seen -= direct[j]! * shared[j]!
  const within = (share: number): number => Math.min(Math.max(share, 0), most)
  let mass = Math.max(dry, 0)
  let water = within(before)
  for (let i = 0; i < again; i++) {
    const hN = onNet * (1 + water)
    const hL = onLinear * (1 + water)
    const across = (place: number): number => {
      const row = place * depth
      return onTare * p[row]! + hN * p[row + 1]! + hL * p[row + 2]! + mass * p[row + 3]!
    }
    const [ofNet, ofLinear, ofWater] = [across(1), across(2), across(3)]
    const s = onTare * across(0) + hN * ofNet + hL * ofLinear + mass * ofWater + variance
    const gain = (seen - (1 + water) * dry - mass * (before - water)) / s
    mass = Math.max(dry + gain * (onNet * ofNet + onLinear * ofLinear), 0)
    water = within(before + gain * ofWater)
  }
  return { mass, water }
}

/** The water now, where products are expanded; between 0 and `most`. */
export const waterPoint = (state: ReelState, shared: Float64Array, most: number): number =>
  Math.min(Math.max(meanAt(state, shared, reelState.water), 0), most)

const meanAt = ({ mean, loads, k }: ReelState, shared: Float64Array, place: number): number => {
  let sum = mean[place]!
  for (let j = 0; j < k; j++) sum += loads[place * k + j]! * shared[j]!
  return sum
}
