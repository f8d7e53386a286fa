import { type Grams, grams, type Measured, measured } from '../units/index.ts'
import { chanceOf, leftOverAt, marginAt } from './margin.ts'
import type { MarginModel } from './margin-model.ts'
import { momentsAt, remainder } from './margin-moments.ts'

/** Draw to which three readings are taken, mm: what a usual reel holds, about. */
const span = 2e5

/**
 * What a reel does for any draw, quick to ask many times over: the same as `chanceAt`, `leftOverAt` and
 * `marginAt` of its model. The mean of what is left is linear in the draw and its variance quadratic, so
 * three draws reckoned the long way tell both for all others.
 */
export class DrawnMargin {
  readonly #unbound: Remains
  readonly #leftOver: Remains
  readonly #margin: Remains
  /** P(n > 0). */
  readonly #some: number

  constructor(model: MarginModel) {
    this.#unbound = new Remains((draw) => remainder(momentsAt(model, draw, true)))
    this.#leftOver = new Remains((draw) => leftOverAt(model, draw))
    this.#margin = new Remains((draw) => marginAt(model, draw))
    this.#some = chanceOf(model.net)
  }

  /** The chance that the reel lasts for a draw, mm, ≥ 0. */
  chanceAt(draw: number): number {
    return this.#some === 0 ? 0 : Math.min(1, chanceOf(this.#unbound.at(draw)) / this.#some)
  }

  /** What is left on it then, unprintable tail included. */
  leftOverAt(draw: number): Measured<Grams> {
    return this.#leftOver.at(draw)
  }

  /** What is left that can be printed. */
  marginAt(draw: number): Measured<Grams> {
    return this.#margin.at(draw)
  }
}

/** What is left after a draw: mean a + b·L, variance c + d·L + e·L². */
class Remains {
  readonly #a: number
  readonly #b: number
  readonly #c: number
  readonly #d: number
  readonly #e: number

  constructor(at: (draw: number) => Measured) {
    const [first, middle, last] = [at(0), at(span / 2), at(span)]
    this.#a = first.value
    this.#b = (last.value - first.value) / span
    const [one, two, three] = [first.u ** 2, middle.u ** 2, last.u ** 2]
    this.#c = one
    this.#d = (4 * two - 3 * one - three) / span
    this.#e = (2 * (one - 2 * two + three)) / span ** 2
  }

  at(draw: number): Measured<Grams> {
    const variance = this.#c + draw * (this.#d + draw * this.#e)
    return measured(grams(this.#a + this.#b * draw), Math.sqrt(Math.max(0, variance)))
  }
}
