import { folded } from './find-row.ts'

/** Whether two words differ, in any case, by one letter left out, put in or put for another. */
export const isSlipOf = (typed: string, meant: string): boolean => {
  const [a, b] = [folded(typed), folded(meant)]
  if (a === b || Math.min(a.length, b.length) < 3) return false
  let at = 0
  while (at < a.length && a[at] === b[at]) at++
  const [restA, restB] = [a.slice(at), b.slice(at)]
  return restA.slice(1) === restB.slice(1) || restA.slice(1) === restB || restA === restB.slice(1)
}
