import { type PrintTimes, type RankedReel, weakest } from '../service/index.ts'
import type { Grams, Measured } from '../units/index.ts'
import type { ToolVerdict, Verdict } from '../verdict/index.ts'
import type { ShelfFound } from './check-over-shelf.ts'
import type { Checked } from './checker.ts'
import type { ReelsJudged } from './judged.ts'
import { likeliest } from './likeliest.ts'
import { sayHeight, sayLack, sayMass } from './say.ts'
import { feedingTaken } from './shelf-check-report.ts'
import { standInOf } from './stand-in-lines.ts'
import { type TimedPlaces, timesInBrief } from './time-sentences.ts'
import type { Drawn } from './what-is-drawn.ts'

/** A judged print as one line of a table tells it, and one more line for each further tool. */
export interface CheckRow {
  readonly file: string
  readonly member: string | null
  readonly verdict: Verdict
  readonly chance: number
  readonly tools: readonly ToolRow[]
  /** When what of it comes, as a sentence; null where that is not known. */
  readonly times: string | null
  /** Name of the printer that stands in for the one nobody named; null where none does. */
  readonly standIn: string | null
  /** Which of the reels feed a print that runs, in sentences. */
  readonly feeding: readonly string[]
  /** Questions and warnings about the file. */
  readonly findings: Drawn['findings']
}

/** What one tool needs, and what serves it. */
export interface ToolRow {
  readonly tool: number
  readonly draw_mm: number
  /** Id of the best reel, where the shelf has one; of the reel that was named. */
  readonly reel: string | null
  /** What it comes to: what would stay, what is missing, or where it runs dry. */
  readonly outcome: string
}

/**
 * The row of a judged print.
 *
 * @param print - where it is from
 * @param now - ms since 1970
 */
export const checkRow = (
  checked: Checked,
  { file, member }: Pick<CheckRow, 'file' | 'member'>,
  now: number,
): CheckRow => {
  const { drawn, verdict, chance, tools, times, places, feeding } =
    checked.kind === 'shelf' ? ofShelf(checked.found) : ofReels(checked)
  const printer = checked.kind === 'shelf' ? checked.found.printer : checked.ofShelf
  return {
    file,
    member,
    verdict,
    chance,
    tools,
    times: times === undefined ? null : timesInBrief(times, places, now),
    standIn: standInOf(printer),
    feeding,
    findings: drawn.findings.filter(({ severity }) => severity !== 'note'),
  }
}

type Judged = Pick<CheckRow, 'verdict' | 'chance' | 'tools' | 'feeding'> & {
  readonly drawn: Drawn
  readonly times: PrintTimes | undefined
  readonly places: TimedPlaces
}

const ofShelf = (found: ShelfFound): Judged => {
  const { drawn, verdict, chance, tools, taken, times, two } = found
  return {
    drawn,
    verdict,
    chance,
    times,
    places: { layers: drawn.layers, two },
    tools: toolsOfShelf(tools, taken),
    feeding: feedingTaken(found),
  }
}

const toolsOfShelf = (tools: ShelfFound['tools'], taken: ShelfFound['taken']): readonly ToolRow[] =>
  tools.map(({ tool, draw_mm, reels }, place) => {
    const best = reels.find(({ card }) => card.id === taken[place]) ?? reels[0]
    return {
      tool,
      draw_mm,
      reel: best?.card.id ?? null,
      outcome: best === undefined ? 'no reel fits' : ofBest(best),
    }
  })

const ofBest = ({ contradicting, leftOver, margin }: RankedReel): string =>
  contradicting.length > 0 ? doubted : stays(leftOver, margin)

const ofReels = ({ drawn, whole, tools, times }: ReelsJudged): Judged => ({
  drawn,
  times,
  places: { layers: drawn.layers, found: weakest(tools).verdict },
  verdict: whole.verdict,
  chance: whole.chance,
  feeding: feedingTold(tools),
  tools: tools.map(
    ({ tool, verdict, onShelf }, place): ToolRow => ({
      tool,
      draw_mm: likeliest(drawn.tools[place]!.draw).peak_mm,
      reel: onShelf?.card.id ?? null,
      outcome:
        verdict.contradicting.length > 0
          ? doubted
          : (dry(verdict) ?? stays(verdict.leftOver, verdict.margin)),
    }),
  ),
})

const feedingTold = (tools: ReelsJudged['tools']): readonly string[] =>
  tools
    .flatMap(({ belief }) => belief.notices)
    .flatMap(({ code, message }) => (code === 'reel_feeds_a_print' ? [message] : []))

/** Of figures that contradict each other none is worth telling. */
const doubted = 'does not agree'

/** What the print leaves; without what can not be printed where that is less than nothing. */
const stays = (leftOver: Measured<Grams>, margin: Measured<Grams>): string =>
  margin.value < 0 ? `lacks ${sayLack(margin)}` : `${sayMass(leftOver)} stay`

/** Where a reel that is not enough runs dry at the earliest. */
const dry = ({ verdict, runDry: { early } }: ToolVerdict): string | null => {
  if (verdict === 'enough' || early === null || early.height_mm === null) return null
  return `dry from ${sayHeight(early.height_mm)} on`
}
