/** Marks of a scale from 0 on. */
export interface AxisTicks {
  /** Distance between two marks: 1, 2 or 5 times a power of ten. */
  readonly step: number
  /** 0, step, 2·step, … up to the last at or below `top`. */
  readonly at: readonly number[]
}

/**
 * Round marks for a scale from 0 to `top`.
 *
 * @param top - > 0 and finite; one mark at 0 else
 * @param about - how many steps are wanted; there may be up to twice as few
 */
export function axisTicks(top: number, about = 5): AxisTicks {
  if (!(top > 0) || !Number.isFinite(top)) return { step: 1, at: [0] }
  const rough = top / about
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= rough * (1 - 1e-9)) ?? rough
  const count = Math.floor(top / step + 1e-9)
  // From the index, so that no sum of steps drifts.
  return {
    step,
    at: Array.from({ length: count + 1 }, (_, k) => Number((k * step).toPrecision(12))),
  }
}
