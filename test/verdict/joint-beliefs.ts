import type { SeededRandom } from '../../demo/seeded-random.ts'
import type { LinearForm, ReelBelief } from '../../src/estimate/index.ts'
import type { Measured } from '../../src/units/index.ts'
import { beliefOf } from './bench-reels.ts'

const names = ['net', 'linearDensity', 'feed', 'start', 'tare', 'area', 'gain'] as const
const one = (name: string): LinearForm => ({ terms: { [name]: 1 } })

/**
 * A belief in net (g), linear density (g/m), feed factor and start allowance (mm) with correlations
 * as given by one unit vector for each: r = aᵢ·aⱼ.
 */
export const jointBelief = (
  parts: readonly [Measured, Measured, Measured, Measured],
  vectors: readonly (readonly number[])[],
): ReelBelief => {
  const plain = beliefOf(parts[0], parts[1])
  const size = names.length
  const all: Measured[] = [
    ...parts,
    { value: 250, u: 0 },
    { value: 2.405, u: 0 },
    { value: 0, u: 0 },
  ]
  const covariance = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      const along = (vectors[i] ?? []).reduce((sum, v, k) => sum + v * (vectors[j]?.[k] ?? 0), 0)
      covariance[i * size + j] = along * all[i]!.u * all[j]!.u
    }
  }
  return {
    ...plain,
    joint: { names: [...names], mean: Float64Array.from(all, ({ value }) => value), covariance },
    nextPrint: {
      feedFactor: one('feed'),
      startAllowance: one('start'),
      meanFeedFactor: one('feed'),
      meanStartAllowance: one('start'),
    },
  }
}

/** A direction in five dimensions, uniform on the sphere. */
export const unitVector = (random: SeededRandom): readonly number[] => {
  const parts = Array.from({ length: 5 }, () => random.normal())
  const length = Math.hypot(...parts)
  return parts.map((part) => part / length)
}
