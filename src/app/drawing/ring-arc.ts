/** The three calls, as the contract has them. */
export type Call = 'enough' | 'close' | 'short'

/** Degrees, clockwise from the top, that the ring leaves open: closed, a gap, half. */
const open: Readonly<Record<Call, readonly [number, number] | null>> = {
  enough: null,
  close: [20, 70],
  short: [0, 180],
}

/**
 * The mark of a verdict as the data of an SVG path about the point 0 0.
 *
 * @param radius - of the middle of the stroke, > 0
 */
export function ringArc(call: Call, radius: number): string {
  const gap = open[call]
  if (gap === null)
    return `M0 ${-radius}A${radius} ${radius} 0 1 1 0 ${radius}A${radius} ${radius} 0 1 1 0 ${-radius}Z`
  const at = (degrees: number): string => {
    const angle = (degrees * Math.PI) / 180
    return `${round(radius * Math.sin(angle))} ${round(-radius * Math.cos(angle))}`
  }
  const sweep = 360 - (gap[1] - gap[0])
  return `M${at(gap[1])}A${radius} ${radius} 0 ${sweep > 180 ? 1 : 0} 1 ${at(gap[0])}`
}

const round = (length: number): number => Math.round(length * 1000) / 1000 + 0
