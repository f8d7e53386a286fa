/**
 * Middle of the values; of an even count, the mean of the two in the middle. NaN for none.
 */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  const half = sorted.length >> 1
  const above = sorted[half] ?? Number.NaN
  return sorted.length % 2 === 1 ? above : ((sorted[half - 1] ?? Number.NaN) + above) / 2
}
