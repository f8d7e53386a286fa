import { DomainError } from '../units/index.ts'

const root32 = Math.sqrt(32)
const inverseRootTwoPi = 0.3989422804014327

/** Σ top[i]·x^(n−1−i) over Σ bottom[i]·x^(n−1−i), of as many coefficients, side by side by Horner's rule. */
const quotient = (top: readonly number[], bottom: readonly number[], x: number): number => {
  let over = 0
  let under = 0
  for (let i = 0; i < top.length; i++) {
    over = over * x + top[i]!
    under = under * x + bottom[i]!
  }
  return over / under
}

/** exp(−x²/2) without the rounding error of x²: x is split at a sixteenth. */
const halfSquareExp = (x: number): number => {
  const head = Math.trunc(x * 16) / 16
  return Math.exp(-0.5 * head * head) * Math.exp(-0.5 * (x - head) * (x + head))
}

// Rational minimax coefficients of Cody (1969), highest power first.
const centreTop = [
  0.06568233791820745, 2.2352520354606837, 161.02823106855587, 1067.6894854603709,
  18154.98125334356,
]
const centreBottom = [
  1, 47.202581904688245, 976.0985517377767, 10260.932208618979, 45507.78933502673,
]
const middleTop = [
  1.0765576773720192e-8, 0.39894151208813466, 8.883149794388377, 93.50665613217785,
  597.2702763948002, 2494.5375852903726, 6848.190450536283, 11602.65143764735, 9842.714838383978,
]
const middleBottom = [
  1, 22.266688044328117, 235.387901782625, 1519.3775994075547, 6485.558298266761,
  18615.571640885097, 34900.95272114598, 38912.00328609327, 19685.429676859992,
]
const farTop = [
  0.023073441764940174, 0.215898534057957, 0.12740116116024736, 0.022235277870649807,
  0.0014216191932278934, 2.9112874951168793e-5,
]
const farBottom = [
  1, 1.284260096144911, 0.4682382124808651, 0.06598813786892856, 0.0037823963320275824,
  7.297515550839662e-5,
]

/** P(Z > x) for x ≥ 0.66291, never by subtraction from 1. */
const tail = (x: number): number => {
  if (x <= root32) {
    return halfSquareExp(x) * quotient(middleTop, middleBottom, x)
  }
  const inverse = 1 / (x * x)
  const series = inverse * quotient(farTop, farBottom, inverse)
  return (halfSquareExp(x) * (inverseRootTwoPi - series)) / x
}

/**
 * Standard normal density φ(x). Relative error below 1e-14 as long as the result is a normal
 * double (|x| < 37.5).
 */
export const normalDensity = (x: number): number =>
  Math.abs(x) > 40 ? 0 : inverseRootTwoPi * halfSquareExp(Math.abs(x))

/**
 * Standard normal distribution Φ(x) = P(Z ≤ x). Relative error below 1e-13 in the centre and in
 * both tails while the result is a normal double; −∞ gives 0 and ∞ gives 1.
 *
 * @throws DomainError `not_a_number`
 * @see W. J. Cody, Rational Chebyshev approximations for the error function, Math. Comp. 23 (1969)
 * 631–637; coefficients from memory, checked in test/estimate/normal.test.ts
 */
export const normalCdf = (x: number): number => {
  if (Number.isNaN(x)) throw new DomainError('not_a_number', 'the normal distribution of NaN')
  const size = Math.abs(x)
  if (size <= 0.66291) {
    return 0.5 + x * quotient(centreTop, centreBottom, x * x)
  }
  if (x > 8.3 || size > 40) return x > 0 ? 1 : 0
  return x < 0 ? tail(size) : 1 - tail(size)
}

/** P(Z > x) = Φ(−x), accurate in the upper tail where 1 − Φ(x) is not. */
export const normalUpperTail = (x: number): number => normalCdf(-x)

// Coefficients of AS 241 (PPND16), highest power first.
const innerTop = [
  2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
  1971.5909503065513, 133.14166789178438, 3.3871328727963665,
]
const innerBottom = [
  5226.495278852546, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
  687.1870074920579, 42.31333070160091, 1,
]
const outerTop = [
  0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684,
  3.6478483247632045, 5.769497221460691, 4.630337846156546, 1.4234371107496835,
]
const outerBottom = [
  1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008,
  0.6897673349851, 1.6763848301838038, 2.053191626637759, 1,
]
const extremeTop = [
  2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124,
  0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
]
const extremeBottom = [
  2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133,
  0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1,
]

/**
 * Standard normal quantile: the x with Φ(x) = p. Relative error about 1e-15 on the p given;
 * 0 gives −∞ and 1 gives ∞.
 *
 * @param p - 0 to 1
 * @throws DomainError `chance_out_of_range`
 * @see M. J. Wichura, Algorithm AS 241, Appl. Statist. 37 (1988) 477–484; coefficients from memory,
 * checked in test/estimate/normal.test.ts
 */
export const normalQuantile = (p: number): number => {
  if (!(p >= 0 && p <= 1)) {
    throw new DomainError('chance_out_of_range', `a chance lies between 0 and 1, not at ${p}`)
  }
  if (p === 0) return -Infinity
  if (p === 1) return Infinity
  const q = p - 0.5
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q
    return q * quotient(innerTop, innerBottom, r)
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p))
  const size =
    r <= 5 ? quotient(outerTop, outerBottom, r - 1.6) : quotient(extremeTop, extremeBottom, r - 5)
  return q < 0 ? -size : size
}
