import type { Finding } from './finding.ts'
import type { Bead } from './reading.ts'

const binsPerDecade = 80
const lowestDecade = -5
const bins = 8 * binsPerDecade

/**
 * Collects the bead that extruding moves imply, as a histogram of feed per path length, weighted
 * by path length. Constant memory; bins are 3 % wide.
 */
export class BeadSampler {
  readonly #weight = new Float64Array(bins)
  #sampled = 0
  #climbing = 0

  /**
   * Adds one straight extruding move: its feed and its way in X, Y and Z, mm.
   *
   * @param stands - for how many moves it stands
   */
  add(feed: number, dx: number, dy: number, dz: number, stands: number): void {
    const length = Math.sqrt(dx * dx + dy * dy + dz * dz)
    const place = Math.floor((Math.log10(feed / length) - lowestDecade) * binsPerDecade)
    const bin = Math.min(bins - 1, Math.max(0, place))
    const weight = length * stands
    this.#weight[bin] = (this.#weight[bin] as number) + weight
    this.#sampled += weight
    if (dz > 0) this.#climbing += weight
  }

  /** Forgets everything: it was a start macro. */
  forget(): void {
    this.#weight.fill(0)
    this.#sampled = 0
    this.#climbing = 0
  }

  /** True when most of the sampled path climbs all the time. */
  get spiral(): boolean {
    return this.#climbing > this.#sampled / 2
  }

  /**
   * The median bead.
   *
   * @param area - of the filament the feed is measured in, mm²
   * @param step - layer step, mm; 0 when unknown
   */
  bead(area: number, step: number): Bead | null {
    if (this.#sampled === 0) return null
    const feedPerPath = this.#median()
    const bead = feedPerPath * area
    return {
      feedPerPath,
      area_mm2: bead,
      width_mm: step > 0 ? bead / step : 0,
      sampled_mm: this.#sampled,
    }
  }

  #median(): number {
    let below = 0
    for (let bin = 0; bin < bins; bin++) {
      const weight = this.#weight[bin] as number
      if (below + weight >= this.#sampled / 2) {
        const share = (this.#sampled / 2 - below) / weight
        return 10 ** (lowestDecade + (bin + share) / binsPerDecade)
      }
      below += weight
    }
    return 10 ** (lowestDecade + bins / binsPerDecade)
  }
}

/** Bead widths nozzles are used for, mm. Common practice, no source. */
const widths = { least: 0.25, usualLeast: 0.3, usualMost: 0.7, most: 0.85, hardMost: 3 }

/** What the person said about E, as far as the bead is concerned. */
export interface BeadAnswers {
  /** The unit was stated, by the person or by the file. */
  readonly unitKnown: boolean
  readonly volumetric: boolean
  /** Diameter of the filament in use, mm. */
  readonly diameter: number
  /** Diameter the file was made for, where it was stated, mm. */
  readonly madeFor: number | undefined
}

/**
 * Says what a bead looks like when it is not what a nozzle draws: E in mm³, a file made for another
 * filament, or simply wrong. Silent when the person has answered, and when the step is unknown.
 */
export function judgeBead(bead: Bead, answers: BeadAnswers): Omit<Finding, 'byte' | 'line'> | null {
  const { width_mm: width } = bead
  if (width === 0) return null
  const area = (Math.PI / 4) * answers.diameter ** 2
  const usual = (w: number): boolean => w >= widths.usualLeast && w <= widths.usualMost
  const drawn = `The moves would lay a bead ${width.toFixed(2)} mm wide`
  if (!answers.unitKnown && width > widths.most && usual(width / area)) {
    return ask(
      'e_looks_like_mm3',
      `${drawn}; read as mm³ it is ${(width / area).toFixed(2)} mm. E looks like mm³: say so, or that it is mm if your nozzle is that wide.`,
    )
  }
  if (answers.madeFor === undefined && !answers.volumetric) {
    const other = answers.diameter < 2.3 ? 2.85 : 1.75
    const otherWidth = width * (other / answers.diameter) ** 2
    const wrongNow = other > answers.diameter ? width < widths.least : width > widths.most
    if (wrongNow && usual(otherWidth)) {
      return ask(
        'e_looks_made_for_other_diameter',
        `${drawn}; with ${other} mm filament it is ${otherWidth.toFixed(2)} mm. The file looks made for ${other} mm: say that you print with ${other} mm, or that it was made for ${answers.diameter} mm if the file is right.`,
      )
    }
  }
  if (width < widths.least / 2.5 || width > widths.hardMost) {
    return {
      code: 'bead_implausible',
      severity: 'warn',
      count: 1,
      message: `${drawn}, which no usual nozzle does: check the unit of E and the filament diameter the file was made for.`,
    }
  }
  return null
}

const ask = (code: string, message: string): Omit<Finding, 'byte' | 'line'> => ({
  code,
  severity: 'ask',
  count: 1,
  message,
})
