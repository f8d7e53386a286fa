import type { PrintTold, ReelBelief } from '../estimate/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { believeReel, type ReelBelieved, type WeighingNow } from './believe-reel.ts'
import { feedingOf, feedsPrint } from './running-prints.ts'
import type { ShelfView } from './shelf-view.ts'
import { onlyScale, weighingNow } from './weighing-now.ts'
import type { WeighingTold } from './weighing-told.ts'

/** A reel of the shelf that is to do a print, and how it would stand on the scale now. */
export interface ReelNowAsked {
  /** Id. */
  readonly reel: string
  /** Nothing of it is written down. */
  readonly weighing?: WeighingTold
  /** Id of a printer of the shelf. */
  readonly printer?: string
  /** Of the print on that printer; it goes before what its prints have taught. */
  readonly printTold?: PrintTold
  /** Milliseconds since 1970. */
  readonly now: number
}

/**
 * What is believed of one reel for a verdict, weighed now or not. What is measured next is measured on the
 * scale that was named, or on the only one.
 *
 * @returns refusals as `weighingNow`, `believeReel`
 */
export const believeNow = (
  view: ShelfView,
  { reel, weighing: told, printer, printTold, now }: ReelNowAsked,
): Outcome<ReelBelieved & { readonly weighing?: WeighingNow }> => {
  const weighing = weighingNow(view, reel, told)
  if (!weighing.ok) return weighing
  const scale = weighing.value?.scale.id ?? onlyScale(view)
  const found = believeReel(view, {
    reel,
    at: new Date(now).toISOString(),
    ...(printer !== undefined && { printer }),
    ...(printTold && { printTold }),
    ...(scale !== undefined && view.estimate.book.scaleAt.has(scale) && { scale }),
    ...(weighing.value && { weighing: weighing.value }),
  })
  if (!found.ok) return found
  const { belief } = found.value
  return accept({
    ...found.value,
    belief: { ...belief, notices: [...belief.notices, ...runningNotices(view, reel)] },
    ...(weighing.value && { weighing: weighing.value }),
  })
}

/** Prints that were started take nothing off their reels until they are recorded. */
const runningNotices = (
  { rows, facts }: Pick<ShelfView, 'rows' | 'facts'>,
  reel: string,
): ReelBelief['notices'] =>
  (feedingOf(rows, facts).get(reel) ?? []).map((printer) => ({
    code: 'reel_feeds_a_print',
    message: feedsPrint(reel, printer),
  }))
