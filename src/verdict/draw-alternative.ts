import type { DrawCurve } from '../print/index.ts'
import { DomainError } from '../units/index.ts'

/**
 * One way to read the draw of one tool. Usually there is one; there are more while nobody has
 * said which firmware family runs the printer and the families read the file differently.
 */
export interface DrawAlternative {
  /** How likely this reading is, against the others; > 0, need not add up to 1. */
  readonly weight: number
  /** What tells it from the others, for the person: the families, say. */
  readonly label?: string
  /** Draw of the whole print, mm, ≥ 0. */
  readonly peak_mm: number
  /** Absent when a bare length stands in for a file. */
  readonly curve?: DrawCurve
  /** Part of the draw that comes before the first layer, mm; 0 unless given. */
  readonly startMacro_mm?: number
  /** Draw reached at the end of each layer, mm. */
  readonly layerEnd_mm?: Float64Array
  /** Layer from which on the part judged feeds, 1-based, where it is not the whole print. */
  readonly firstLayer?: number
}

/**
 * The same alternatives, heaviest first, with weights that add up to 1.
 *
 * @throws DomainError `no_draw`, `weight_not_positive`, `draw_negative`
 */
export const normalised = (draw: readonly DrawAlternative[]): readonly DrawAlternative[] => {
  if (draw.length === 0) throw new DomainError('no_draw', 'a verdict needs a draw')
  for (const { weight, peak_mm } of draw) {
    if (!(weight > 0 && weight < Infinity)) {
      throw new DomainError('weight_not_positive', `an alternative weighs ${weight}`)
    }
    if (!(peak_mm >= 0 && peak_mm < Infinity)) {
      throw new DomainError('draw_negative', `a print can not draw ${peak_mm} mm`)
    }
  }
  const total = draw.reduce((sum, { weight }) => sum + weight, 0)
  return draw
    .map((alternative) => ({ ...alternative, weight: alternative.weight / total }))
    .toSorted((a, b) => b.weight - a.weight)
}
