import type { MotionOptions } from '../print/index.ts'
import type { ShelfFound } from './check-over-shelf.ts'
import type { CheckText } from './check-text.ts'
import type { ReelsJudged } from './judged.ts'
import type { Drawn } from './what-is-drawn.ts'

/** The answer to one print: of the reels that were told, or of the whole shelf. */
export type Checked =
  | ({ readonly kind: 'reels' } & ReelsJudged)
  | { readonly kind: 'shelf'; readonly found: ShelfFound }

/** Judges prints, one after another, by what was typed once. */
export interface Checker {
  /** As typed, with the firmware that the shelf has for the printer. */
  readonly typed: CheckText
  /** What the shelf has of the printer's motion. */
  readonly motion?: MotionOptions
  /** @throws Fault of wrong usage */
  readonly judge: (drawn: Drawn) => Checked
}
