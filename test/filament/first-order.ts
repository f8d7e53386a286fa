import type { Measured } from '../../src/units/index.ts'

/**
 * First-order standard uncertainty by central differences, independent inputs: the slow twin of
 * every sensitivity written out by hand (JCGM 100:2008, 5.1.2 and 5.1.3 note 2).
 */
export const firstOrder = (
  of: (...values: number[]) => number,
  inputs: readonly Measured[],
): number => {
  const values = inputs.map(({ value }) => value)
  const moved = (index: number, by: number): number =>
    of(...values.map((value, i) => (i === index ? value + by : value)))
  const parts = inputs.map(({ value, u }, index) => {
    const step = 1e-5 * Math.max(Math.abs(value), 1e-3)
    return ((moved(index, step) - moved(index, -step)) / (2 * step)) * u
  })
  return Math.hypot(...parts)
}
