import { covarianceOf, type LinearForm, type WorkBelief } from '../estimate/index.ts'

/**
 * The standard deviation of the net that nothing else explains, g: given the linear density and what every
 * printer feeds. Whatever a reel is asked for, its margin is not known better than that.
 */
export const spreadOfItsOwn = ({
  joint,
  net,
  linearDensity,
  printers,
}: Omit<WorkBelief, 'standIns'>): number => {
  const forms: readonly LinearForm[] = [
    linearDensity,
    ...Object.values(printers).flatMap((each) => [each.feedFactor, each.startAllowance]),
    net,
  ]
  const rows = forms.map((a) => forms.map((b) => covarianceOf(joint, a, b)))
  const last = forms.length - 1
  // What is explained by one form after the other is taken off (Cholesky's way, without the roots).
  for (let at = 0; at < last; at++) {
    const pivot = rows[at]![at]!
    // Of what is known, or follows from those before, nothing is left to explain anything by.
    if (!(pivot > leastShare * covarianceOf(joint, forms[at]!, forms[at]!))) continue
    for (let i = at + 1; i <= last; i++) {
      const share = rows[i]![at]! / pivot
      for (let j = at + 1; j <= last; j++) rows[i]![j]! -= share * rows[at]![j]!
    }
  }
  return Math.sqrt(Math.max(0, rows[last]![last]!))
}

/** Below this share of a variance what is left of it is rounding. */
const leastShare = 1e-10
