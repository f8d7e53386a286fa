import { describeFact, ledgerNames } from '../ledger/index.ts'
import { findReel, reelShowToJson, reelStory } from '../service/index.ts'
import { type AskText, askedShelf } from './asked-shelf.ts'
import { answered } from './open-ledger.ts'
import { parseMoment } from './parse-moment.ts'
import { reelShowReport } from './reel-show-report.ts'
import { run } from './run.ts'
import { taken } from './taken.ts'

/** What was typed after `reel show`. */
export interface ReelShowText extends AskText {
  readonly knownAt?: string
}

/** `reelreckon reel show`: all there is to know of one reel. */
export const reelShowCommand = (named: string, typed: ReelShowText): Promise<void> =>
  run(typed.json === true, async (terminal) => {
    const clock = Date.now()
    const at = typed.at === undefined ? undefined : parseMoment(typed.at, clock, '--at')
    const knownAt =
      typed.knownAt === undefined ? undefined : parseMoment(typed.knownAt, clock, '--known-at')
    const { view, prints, now } = await askedShelf(typed)
    const reel = taken(findReel(view, named, { byWords: true }), 'reel show')
    const moments = { ...(at !== undefined && { at }), ...(knownAt !== undefined && { knownAt }) }
    const story = answered(reelStory(view, reel, moments))
    const names = ledgerNames(view.rows, prints)
    const told = {
      ...story,
      ...moments,
      now,
      what: story.card.facts.map(({ fact }) => describeFact(fact, names)),
    }
    const text =
      typed.json === true
        ? `${JSON.stringify(reelShowToJson(told), null, 2)}\n`
        : reelShowReport(terminal, told)
    return { text, exit: 0 }
  })
