import type { NumberRoom } from './number-room.ts'

/**
 * Places in a reel's state: tare g, net g, linear density g/m, and of a reel whose material takes up
 * water, water over dry mass. The net as it was at some time comes after them where it is asked for,
 * and after it the water as it was.
 */
export const reelState = { tare: 0, net: 1, linear: 2, water: 3 } as const

/** Places in a reading: its value and variance, and its weights on the first four states. */
export const readingAt = {
  value: 0,
  variance: 1,
  onTare: 2,
  onNet: 3,
  onLinear: 4,
  onWater: 5,
  count: 6,
} as const

/**
 * The state x of one reel as a function of the shared unknowns u, x given u ~ N(a + B·u, P), and
 * what the reel's readings said so far of u alone: information J and score s.
 *
 * B is row-major, depth × k; P is row-major, depth × depth, symmetric; J is row-major k × k. Work is
 * k for what happens to the net and k² for a reading.
 */
export class ReelState {
  readonly depth: number
  readonly k: number
  /** a */
  readonly mean: Float64Array
  /** B */
  readonly loads: Float64Array
  /** P */
  readonly spread: Float64Array
  /** J */
  readonly information: Float64Array
  /** s */
  readonly score: Float64Array
  /** Σ ln S + e²/S over the readings seen, e as it is at u = 0. */
  misfit = 0
  /** How many readings were seen. */
  readings = 0
  /** Σ e²/S over the readings seen, e as it is at u = 0. */
  distance = 0
  /** P·hᵀ of the last reading. */
  readonly #across: Float64Array
  /** Weights of a reading on u; made zero by whoever writes into it before `see`. */
  readonly direct: Float64Array
  /**
   * The reading that `see` takes in, as `readingAt` names its places; weights are on the first four states
   * only, and in a state of three the fourth is 0.
   */
  readonly reading: Float64Array

  /** @param room - where its figures are laid, all 0 */
  constructor(depth: number, k: number, room: NumberRoom) {
    this.depth = depth
    this.k = k
    const piece = room.take(k * k + 2 * k + depth * (2 + k + depth) + readingAt.count)
    let used = 0
    const part = (size: number): Float64Array => piece.subarray(used, (used += size))
    this.information = part(k * k)
    this.score = part(k)
    this.mean = part(depth)
    this.loads = part(depth * k)
    this.spread = part(depth * depth)
    this.direct = part(k)
    this.reading = part(readingAt.count)
    this.#across = part(depth)
  }

  /** The net changes by `weight` times the state at `from`, which is not the net itself. */
  addToNet(from: number, weight: number): void {
    const { mean: a, loads: b, spread: p, depth, k } = this
    const its = from * k
    const row = from * depth
    a[1]! += weight * a[from]!
    for (let j = 0; j < k; j++) b[k + j]! += weight * b[its + j]!
    p[depth + 1]! += weight * (weight * p[row + from]! + 2 * p[depth + from]!)
    for (let j = 0; j < depth; j++) {
      if (j === 1) continue
      const entry = p[depth + j]! + weight * p[row + j]!
      p[depth + j] = entry
      p[j * depth + 1] = entry
    }
  }

  /** A state becomes another, given by value and variance, that nothing before tells of. */
  replace(place: number, value: number, variance: number): void {
    this.scale(place, 0)
    this.mean[place] = value
    this.spread[place * this.depth + place] = variance
  }

  /** A state is multiplied by a factor. */
  scale(place: number, factor: number): void {
    const { mean: a, loads: b, spread: p, depth, k } = this
    a[place]! *= factor
    for (let j = place * k; j < (place + 1) * k; j++) b[j]! *= factor
    for (let j = 0; j < depth; j++) {
      p[place * depth + j]! *= factor
      p[j * depth + place]! *= factor
    }
  }

  /** The state at `to` becomes a copy of that at `from`. */
  copy(from: number, to: number): void {
    const { mean: a, loads: b, spread: p, depth, k } = this
    a[to] = a[from]!
    b.copyWithin(to * k, from * k, (from + 1) * k)
    p.copyWithin(to * depth, from * depth, (from + 1) * depth)
    for (let i = 0; i < depth; i++) p[i * depth + to] = p[i * depth + from]!
  }

  /**
   * Takes in value = hT·t + hN·n + hL·λ + hW·w + direct·u + error, which stands in `reading`: numbers that are
   * handed over one by one would each be put into memory of their own. With w = h·B + direct,
   * e = value − h·a and S = h·P·hᵀ + variance:  J += w·wᵀ/S,  s += w·e/S. Of J the lower triangle is written.
   */
  see(): void {
    const { mean: a, loads: b, spread: p, depth, k, information, score, reading } = this
    const value = reading[readingAt.value]!
    const variance = reading[readingAt.variance]!
    const hT = reading[readingAt.onTare]!
    const hN = reading[readingAt.onNet]!
    const hL = reading[readingAt.onLinear]!
    const hW = reading[readingAt.onWater]!
    const w = this.direct
    const ph = this.#across
    let e = value - hT * a[0]! - hN * a[1]! - hL * a[2]!
    for (let i = 0; i < depth; i++) {
      const from = i * depth
      ph[i] = hT * p[from]! + hN * p[from + 1]! + hL * p[from + 2]!
    }
    for (let j = 0; j < k; j++) w[j]! += hT * b[j]! + hN * b[k + j]! + hL * b[2 * k + j]!
    let s = hT * ph[0]! + hN * ph[1]! + hL * ph[2]! + variance
    if (hW !== 0) {
      e -= hW * a[3]!
      for (let i = 0; i < depth; i++) {
        const water = hW * p[i * depth + 3]!
        ph[i]! += water
        if (i < 3) s += (i === 0 ? hT : i === 1 ? hN : hL) * water
      }
      s += hW * ph[3]!
      for (let j = 0; j < k; j++) w[j]! += hW * b[3 * k + j]!
    }
    for (let i = 0; i < k; i++) {
      const share = w[i]! / s
      if (share === 0) continue
      const from = i * k
      for (let j = 0; j <= i; j++) information[from + j]! += share * w[j]!
      score[i]! += share * e
    }
    this.misfit += Math.log(s) + (e * e) / s
    this.distance += (e * e) / s
    this.readings++
    e /= s
    for (let i = 0; i < depth; i++) {
      const gain = ph[i]! / s
      if (gain === 0) continue
      a[i]! += ph[i]! * e
      const from = i * k
      for (let j = 0; j < k; j++) b[from + j]! -= gain * w[j]!
      for (let j = 0; j < depth; j++) p[i * depth + j]! -= gain * ph[j]!
    }
    // Joseph's form: takes back what the line above loses where an unknown was vague before.
    for (let i = 0; i < depth; i++) {
      const from = i * depth
      let along = hT * p[from]! + hN * p[from + 1]! + hL * p[from + 2]!
      if (hW !== 0) along += hW * p[from + 3]!
      const rest = (variance * ph[i]!) / s - along
      for (let j = 0; j <= i; j++) {
        const entry = p[from + j]! + (rest * ph[j]!) / s
        p[from + j] = entry
        p[j * depth + i] = entry
      }
    }
  }

  /** Writes the upper triangle of J. */
  mirror(): void {
    const { information, k } = this
    for (let i = 1; i < k; i++) {
      for (let j = 0; j < i; j++) information[j * k + i] = information[i * k + j]!
    }
  }
}
