import { type PrintTold, shelfBelief } from '../estimate/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import { type Grams, type Measured, type Millimetres, millimetres } from '../units/index.ts'
import {
  type ChanceLimits,
  callInDoubt,
  contradictingOf,
  type DrawAlternative,
  type NextMeasure,
  nextMeasures,
  normalised,
  type Printer,
  unknownPrinter,
  type Verdict,
} from '../verdict/index.ts'
import { kthLeast } from './kth-least.ts'
import { type ReadyReels, readyReels, type ShelfToAsk } from './ready-reels.ts'
import type { ShelfView } from './shelf-view.ts'

/** What is to be printed, and on what. */
export interface ShelfQuestion {
  /** Ascending tool numbers; at least one. */
  readonly tools: readonly { readonly tool: number; readonly draw: readonly DrawAlternative[] }[]
  /** Id of a printer of the shelf, whose prints have taught what it feeds. */
  readonly printer?: string
  /** Its tail is taken, and all of it where no printer of the shelf is named. */
  readonly told?: Printer
  /** Of the print on that printer; it goes before what its prints have taught. */
  readonly printTold?: PrintTold
  /** Id of the scale that a measurement would be made on. */
  readonly scale?: string
  /** c; 0.95 unless given. */
  readonly confidence?: number
  /** True where the file may not say all that the print draws: no reel is enough then. */
  readonly inDoubt?: boolean
  /** Which reels come into question; the same function for the same reels is the sooner answered. */
  readonly fits: (card: ReelCard) => boolean
  /** No more reels than this are told for each tool; all unless given. */
  readonly most?: number
}

/** One reel against one tool of the print. */
export interface RankedReel {
  readonly card: ReelCard
  readonly verdict: Verdict
  readonly chance: number
  readonly net: Measured<Grams>
  /** After the print, tail included. */
  readonly leftOver: Measured<Grams>
  /** Without the tail, which can not be printed. */
  readonly margin: Measured<Grams>
  /** What was observed of it and does not agree with the rest: while there is any it is *close*. */
  readonly contradicting: readonly string[]
  /** Names of the printers on which a print that was started feeds from it: that is not off its net yet. */
  readonly feedsPrintsOn: readonly string[]
  /** What settles a close call best, if anything does. */
  readonly next: NextMeasure | null
}

/** The reels for one tool. */
export interface ToolRanking {
  readonly tool: number
  /** The likeliest draw. */
  readonly draw_mm: Millimetres
  /** How many reels of each call there are, told or not. */
  readonly counts: Readonly<Record<Verdict, number>>
  /**
   * Enough first, the fewest left over before; then close, the better chance before; of both those that feed a
   * print which runs stand behind the others. Then short, the fullest before.
   */
  readonly reels: readonly RankedReel[]
  /** The same beyond those told: all, or 200 at the least. */
  readonly order: readonly ReelCard[]
}

/** The answer of a shelf to a print. */
export interface ShelfAnswer {
  /** Enough when every tool can be given a reel of its own that is enough, and so with close. */
  readonly verdict: Verdict
  /** That the reels which would be taken first all last; 0 where a tool has none. */
  readonly chance: number
  /** Ids of the reels that would be taken, in the order of the tools; none where there are too few. */
  readonly taken: readonly string[]
  readonly tools: readonly ToolRanking[]
}

/** Measures are worked out for the likeliest of the close reels: each takes a millisecond or so. */
const closeAdvised = 4

/** So many are put in order however few are told: a pair is looked for among them. */
const alwaysRanked = 200

const calls = ['enough', 'close', 'short'] as const

/** All reels against one tool; a reel is its place among the ready ones. */
interface ToolJudged {
  /** The likeliest draw, mm. */
  readonly likeliest: number
  readonly counts: Readonly<Record<Verdict, number>>
  /** The first of each call, in the order in which they would be taken. */
  readonly called: Readonly<Record<Verdict, readonly number[]>>
  /** That a reel lasts: reckoned where somebody asks. */
  readonly chanceOf: (reel: number) => number
}

/**
 * Which reels of the shelf could do a print. With k tools a reel is enough from a chance of c^(1/k)
 * up, so that the print as a whole is as sure as was asked.
 */
export const checkShelf = (
  view: ShelfToAsk & Pick<ShelfView, 'spreads'>,
  question: ShelfQuestion,
): ShelfAnswer => {
  const { tools, printer, told = unknownPrinter, scale, confidence = 0.95, fits } = question
  const { printTold, inDoubt = false, most = Infinity } = question
  const ready = readyReels(view, {
    fits,
    told,
    ...(printer !== undefined && { printer }),
    ...(printTold && { printTold }),
    ...(scale !== undefined && { scale }),
  })
  const { cards, beliefs, nets, margins } = ready
  const sure = confidence ** (1 / tools.length)
  // No more are looked at, either, to give each tool a reel of its own.
  const ranks = Math.max(most, tools.length, alwaysRanked)
  const judged = tools.map(({ draw }) =>
    judgeTool(ready, draw, { limits: { low: 1 - confidence, high: sure }, inDoubt, ranks }),
  )
  // Of most reels the last weighing alone was examined, which says whether there is anything to tell.
  const contradictingNames = (reel: number): readonly string[] =>
    ready.doubted[reel] === 0
      ? []
      : contradictingOf(shelfBelief(view.estimate, cards[reel]!.id)).map(({ what }) => what)
  const rankings = tools.map(({ tool, draw }, place): ToolRanking => {
    const { likeliest, counts, called, chanceOf } = judged[place]!
    const ranked = firstOf(called, ranks)
    const advised = new Set(called.close.slice(0, closeAdvised))
    const nextOf = (reel: number): NextMeasure | null => {
      if (!advised.has(reel)) return null
      const input = { belief: beliefs[reel]!, printer: told, draw, confidence: sure, inDoubt }
      return nextMeasures(input, view.spreads.priors)[0] ?? null
    }
    return {
      tool,
      draw_mm: millimetres(likeliest),
      counts,
      reels: ranked.slice(0, most).map(
        ({ reel, verdict }): RankedReel => ({
          card: cards[reel]!,
          verdict,
          chance: chanceOf(reel),
          net: nets[reel]!,
          leftOver: margins.leftOverAt(reel, likeliest),
          margin: margins.marginAt(reel, likeliest),
          contradicting: contradictingNames(reel),
          feedsPrintsOn: ready.feedsPrintsOn[reel]!,
          next: nextOf(reel),
        }),
      ),
      order: ranked.map(({ reel }) => cards[reel]!),
    }
  })
  const { verdict, chance, given } = callOfShelf(judged)
  return { verdict, chance, taken: given.map((reel) => cards[reel]!.id), tools: rankings }
}

/** The first reels of all calls together, no more than `most`. */
const firstOf = (
  called: ToolJudged['called'],
  most: number,
): readonly { readonly reel: number; readonly verdict: Verdict }[] => {
  const first: { reel: number; verdict: Verdict }[] = []
  for (const verdict of calls) {
    for (const reel of called[verdict].slice(0, most - first.length)) first.push({ reel, verdict })
  }
  return first
}

/** How reels are called, and how many of each call are wanted in order. */
interface Judging {
  /** The chance to be enough, and that to be short. */
  readonly limits: ChanceLimits
  readonly inDoubt: boolean
  readonly ranks: number
}

/**
 * Calls all reels for one tool, and ranks the first of each call: remnants that clear before; of those
 * that are close the likelier, of those that are short the fuller. Behind the others stands one that feeds a
 * print which runs: what it holds is less than is reckoned.
 */
const judgeTool = (
  { cards, margins, doubted, feedsPrintsOn }: ReadyReels,
  draw: readonly DrawAlternative[],
  { limits, inDoubt, ranks }: Judging,
): ToolJudged => {
  const alternatives = normalised(draw)
  const { peak_mm: likeliest } = alternatives[0]!
  const others = alternatives.slice(1)
  const chances = new Float64Array(cards.length).fill(NaN)
  const chanceOf = (reel: number): number => {
    if (Number.isNaN(chances[reel])) {
      let chance = 0
      for (const { weight, peak_mm } of alternatives) {
        chance += weight * margins.chanceAt(reel, peak_mm)
      }
      chances[reel] = chance
    }
    return chances[reel]!
  }
  const callOf = (reel: number): Verdict => callInDoubt(callByChance(reel), inDoubt)
  const callByChance = (reel: number): Verdict => {
    if (doubted[reel] !== 0) return 'close'
    // Most reels are far from close whichever way the print is read, and need no chance to be called.
    const side = margins.sideAt(reel, likeliest, limits)
    if (
      side !== 0 &&
      others.every(({ peak_mm }) => margins.sideAt(reel, peak_mm, limits) === side)
    ) {
      return side < 0 ? 'short' : margins.someAt(reel) < limits.high ? 'close' : 'enough'
    }
    if (Math.min(chanceOf(reel), margins.someAt(reel)) >= limits.high) return 'enough'
    return chanceOf(reel) <= limits.low ? 'short' : 'close'
  }
  const called: Readonly<Record<Verdict, number[]>> = { enough: [], close: [], short: [] }
  const left = new Float64Array(cards.length)
  for (let reel = 0; reel < cards.length; reel++) {
    left[reel] = margins.leftAt(reel, likeliest)
    called[callOf(reel)].push(reel)
  }
  const { enough, close, short } = called
  const feeds = (reel: number): boolean => feedsPrintsOn[reel]!.length > 0
  // One that may be empty stands behind: its chance takes it that it is not.
  const sureOf = (reel: number): number => margins.someAt(reel) * chanceOf(reel)
  close.sort(
    (a, b) => Number(feeds(a)) - Number(feeds(b)) || sureOf(b) - sureOf(a) || left[b]! - left[a]!,
  )
  const [free = [], feeding = []] = [false, true].map((does) =>
    enough.filter((reel) => feeds(reel) === does),
  )
  return {
    likeliest,
    counts: { enough: enough.length, close: close.length, short: short.length },
    called: {
      enough: [...leastOf(free, left, ranks), ...leastOf(feeding, left, ranks)],
      close,
      short: leastOf(
        short,
        left.map((grams) => -grams),
        ranks,
      ),
    },
    chanceOf,
  }
}

/**
 * The reels of the least keys, ascending; of equal ones in the order given. Of many few are put in order.
 *
 * @param keys - one for each reel of the shelf
 */
const leastOf = (reels: readonly number[], keys: Float64Array, most: number): readonly number[] => {
  let few = reels.slice()
  if (most < reels.length) {
    // Not by `from`, which takes several times as long.
    const ofThem = new Float64Array(reels.map((reel) => keys[reel]!))
    const bound = kthLeast(ofThem, most - 1)
    few = few.filter((reel) => keys[reel]! <= bound)
  }
  return few.toSorted((a, b) => keys[a]! - keys[b]!).slice(0, most)
}

/** By the best reels that can be given to all tools at once, as sure as the least sure of them. */
const callOfShelf = (
  judged: readonly ToolJudged[],
): Pick<ShelfAnswer, 'verdict' | 'chance'> & { readonly given: readonly number[] } => {
  for (const [place, verdict] of calls.entries()) {
    const wanted = judged.map(({ called }) =>
      calls.slice(0, place + 1).flatMap((call) => called[call]),
    )
    const given = giveEach(wanted)
    if (given === undefined) continue
    const chance = given.reduce((product, reel, tool) => product * judged[tool]!.chanceOf(reel), 1)
    return { verdict, chance, given }
  }
  return { verdict: 'short', chance: 0, given: [] }
}

/**
 * A reel of its own for every tool, by augmenting paths; the first wanted is tried first.
 *
 * @param wanted - for each tool the reels that would do
 * @returns in the order of the tools; undefined where there is no such choice
 * @see H. W. Kuhn, Naval Res. Logist. Quart. 2 (1955) 83–97, from memory
 */
const giveEach = (wanted: readonly (readonly number[])[]): readonly number[] | undefined => {
  const takenBy = new Map<number, number>()
  const give = (tool: number, tried: Set<number>): boolean => {
    for (const reel of wanted[tool]!) {
      if (tried.has(reel)) continue
      tried.add(reel)
      const before = takenBy.get(reel)
      if (before === undefined || give(before, tried)) {
        takenBy.set(reel, tool)
        return true
      }
    }
    return false
  }
  if (!wanted.every((_, tool) => give(tool, new Set()))) return undefined
  return [...takenBy].toSorted(([, a], [, b]) => a - b).map(([reel]) => reel)
}
