/**
 * A small seeded generator for simulations: mulberry32 (Tommy Ettinger, public domain, from
 * memory). Period 2³², which is far more than a test draws.
 */
export class SeededRandom {
  #state: number

  constructor(seed: number) {
    this.#state = seed >>> 0
  }

  /** Uniform, 0 ≤ x < 1. */
  uniform(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0
    let t = this.#state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }

  /** Uniform between two ends. */
  between(low: number, high: number): number {
    return low + (high - low) * this.uniform()
  }

  /** Normal, by the method of Box and Muller. */
  normal(mean = 0, sd = 1): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.uniform()))
    return mean + sd * radius * Math.cos(2 * Math.PI * this.uniform())
  }

  /** A generator of its own: what is drawn from it does not move this one, which gives a single draw for it. */
  fork(): SeededRandom {
    return new SeededRandom(this.uniform() * 2 ** 32)
  }

  /** One of the entries. */
  pick<T>(entries: readonly T[]): T {
    return entries[Math.floor(this.uniform() * entries.length)]!
  }
}
