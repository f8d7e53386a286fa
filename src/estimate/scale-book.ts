import type { Scale } from '../filament/index.ts'
import { type Measured, measured } from '../units/index.ts'
import { unknownNames } from './unknown-names.ts'

/** Scales by identity, so that weighings on one scale share its gain. */
export class ScaleBook {
  readonly usual: Scale
  readonly #scales: Scale[]

  constructor(usual: Scale) {
    this.usual = usual
    this.#scales = [usual]
  }

  gainOf(scale: Scale): string {
    const known = this.#scales.indexOf(scale)
    const place = known < 0 ? this.#scales.push(scale) - 1 : known
    return place === 0 ? unknownNames.gain : `${unknownNames.gain}_${place + 1}`
  }

  gains(): Record<string, Measured> {
    return Object.fromEntries(
      this.#scales.map((scale) => [this.gainOf(scale), measured(0, scale.gain)]),
    )
  }
}
