import { type DrawAlternative, normalised } from './draw-alternative.ts'
import { chanceAt } from './margin.ts'
import type { MarginModel } from './margin-model.ts'

/**
 * The chance that the reel lasts for a tool's draw, all its alternatives weighed: what `judge` says,
 * without anything else of it. For ranking many reels.
 *
 * @throws DomainError `no_draw`, `weight_not_positive`, `draw_negative`
 */
export const chanceOfDraw = (model: MarginModel, draw: readonly DrawAlternative[]): number =>
  normalised(draw).reduce((sum, { weight, peak_mm }) => sum + weight * chanceAt(model, peak_mm), 0)
