/** Chance that falls the same way at every run: mulberry32 (Tommy Ettinger, public domain, from memory). */
export class Dice {
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

  /** Normal about 0, by the method of Box and Muller. */
  normal(sd: number): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.uniform()))
    return sd * radius * Math.cos(2 * Math.PI * this.uniform())
  }

  byte(): number {
    return Math.floor(this.uniform() * 256)
  }
}
