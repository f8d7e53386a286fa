import type { Measured } from '../units/index.ts'
import type { NumberRoom } from './number-room.ts'
import { type DampPoint, dampPoint, waterPoint } from './shelf-damp-mass.ts'
import { type ReelState, readingAt, reelState } from './shelf-state.ts'
import type { MakeWater } from './shelf-water.ts'

/** How the water of a reel begins. */
export interface WaterStart {
  /** Time of its first fact, days; Infinity without any. */
  readonly since: number
  /** Water over dry mass then. */
  readonly share: Measured
}

const place = reelState.water

/**
 * The water of one reel through time: it goes towards the share at rest in the air around the reel,
 *
 *     w′ = rest + (w − rest)·e^(−Δt/τ),   variance σ²·(1 − e^(−2Δt/τ)) added,
 *
 * which is the Ornstein–Uhlenbeck process of mean `rest` and standing variance σ² at any two times,
 * exactly. It has no part in what the feeder takes, so it need be brought up only where a fact meets
 * it.
 *
 * @see G. E. Uhlenbeck, L. S. Ornstein, Phys. Rev. 36 (1930) 823–841, from memory
 */
export class ReelWater {
  readonly #state: ReelState
  readonly #water: MakeWater
  readonly #shared: Float64Array
  /** Mass and water where the last reading was expanded. */
  readonly #expanded: Float64Array
  #rest: number
  #variance: number
  #now: number

  /**
   * Writes the share at the start into the state; in room air until moved.
   *
   * @param shared - the shared unknowns where products are expanded, in prior standard deviations
   * @param room - where its own figures are laid
   */
  constructor(
    state: ReelState,
    { since, share }: WaterStart,
    water: MakeWater,
    shared: Float64Array,
    room: NumberRoom,
  ) {
    this.#expanded = room.take(2)
    const { value, u } = water.atRest.room
    this.#state = state
    this.#water = water
    this.#shared = shared
    this.#rest = value
    this.#variance = u ** 2
    this.#now = since
    state.replace(place, share.value, share.u ** 2)
  }

  /** Brings the water to a time; one that is past already changes nothing. */
  runTo(at: number): void {
    if (!(at > this.#now)) return
    const { mean, spread, depth } = this.#state
    const left = Math.exp((this.#now - at) / this.#water.days)
    this.#state.scale(place, left)
    mean[place]! += this.#rest * (1 - left)
    spread[place * (depth + 1)]! += this.#variance * (1 - left * left)
    this.#now = at
  }

  /** From now on it goes towards another share, with another standing variance. */
  movedTo(rest: number, variance: number): void {
    this.#rest = rest
    this.#variance = variance
  }

  /** It is known anew, whatever it was. */
  driedTo(share: number, variance: number): void {
    this.#state.replace(place, share, variance)
  }

  /** A mass is cut off with the water in it: m/(1 + w) of it is dry, to first order. */
  trim(mass: number, variance: number): void {
    const state = this.#state
    const water = waterPoint(state, this.#shared, this.#water.most)
    const whole = 1 + water
    state.addToNet(place, mass / whole ** 2)
    state.mean[reelState.net]! -= mass / whole + (mass * water) / whole ** 2
    state.spread[reelState.net * (state.depth + 1)]! += variance / whole ** 2
  }

  /**
   * Takes in value = onTare·t + (1 + w)·(onNet·n + onLinear·λ) + direct·u + error, which stands in the state's
   * `reading` with the weights of dry filament.
   */
  see(): void {
    const state = this.#state
    const { reading } = state
    dampPoint(state, this.#shared, this.#water.most, this.#expanded)
    const mass = this.#expanded[0]!
    const water = this.#expanded[1]!
    reading[readingAt.value]! += mass * water
    reading[readingAt.onNet]! *= 1 + water
    reading[readingAt.onLinear]! *= 1 + water
    reading[readingAt.onWater] = mass
    state.see()
  }

  /** Where the last reading was expanded. */
  get expanded(): DampPoint {
    const [mass, water] = this.#expanded as unknown as readonly [number, number]
    return { mass, water }
  }
}
