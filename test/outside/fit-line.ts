import { condition, type JointNormal, jointNormal } from '../../src/estimate/index.ts'

/**
 * A line `intercept + slope·x` through points with a known standard deviation, found as the estimate
 * finds everything: one scalar observation after the other, from a prior too vague to matter.
 *
 * @param vague - standard uncertainty of the prior of both
 */
export const fitLine = (
  points: readonly (readonly [x: number, y: number])[],
  sd: number,
  vague: number,
): JointNormal =>
  points.reduce(
    (joint, [x, y]) =>
      condition(joint, {
        form: { terms: { intercept: 1, slope: x } },
        value: y,
        variance: sd ** 2,
      }).joint,
    jointNormal({ intercept: { value: 0, u: vague }, slope: { value: 0, u: vague } }),
  )
