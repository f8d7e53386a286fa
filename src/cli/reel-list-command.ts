import { listReels, reelFilter, reelListToJson } from '../service/index.ts'
import { type AskText, askedShelf } from './asked-shelf.ts'
import { reelListReport } from './reel-list-report.ts'
import { run } from './run.ts'
import { taken } from './taken.ts'

/** What was typed after `reel list`. */
export interface ReelListText extends AskText {
  readonly material?: string
  readonly colour?: string
  readonly make?: string
  readonly place?: string
  readonly all?: boolean
}

/** `reelreckon reel list`: what stands on the shelf. */
export const reelListCommand = (typed: ReelListText): Promise<void> =>
  run(typed.json === true, async (terminal) => {
    const { view, found } = await askedShelf(typed)
    const { material, colour, make, place } = typed
    const fits = taken(
      reelFilter(view, {
        ...(material !== undefined && { material }),
        ...(colour !== undefined && { colour }),
        ...(make !== undefined && { make }),
        ...(place !== undefined && { place }),
      }),
      '--material',
    )
    const reels = listReels(view, fits, typed.all === true)
    const text =
      typed.json === true
        ? `${JSON.stringify(reelListToJson(reels), null, 2)}\n`
        : reelListReport(terminal, reels, found && view.cards.size > 0)
    return { text, exit: 0 }
  })
