import type { ReelCard } from '../ledger/index.ts'
import { type Grams, type Measured, type Millimetres, millimetres } from '../units/index.ts'
import {
  type DrawAlternative,
  type NextMeasure,
  nextMeasures,
  normalised,
  type Printer,
  unknownPrinter,
  type Verdict,
} from '../verdict/index.ts'
import { readyReels } from './ready-reels.ts'
import type { ShelfView } from './shelf-view.ts'

/** What is to be printed, and on what. */
export interface ShelfQuestion {
  /** Ascending tool numbers; at least one. */
  readonly tools: readonly { readonly tool: number; readonly draw: readonly DrawAlternative[] }[]
  /** Id of a printer of the shelf, whose prints have taught what it feeds. */
  readonly printer?: string
  /** Its tail is taken, and all of it where no printer of the shelf is named. */
  readonly told?: Printer
  /** Id of the scale that a measurement would be made on. */
  readonly scale?: string
  /** c; 0.95 unless given. */
  readonly confidence?: number
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
  /** Enough first, the fewest left over before; then close and short, the better chance before. */
  readonly reels: readonly RankedReel[]
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

const calls = ['enough', 'close', 'short'] as const

/** A reel, by its place among the ready ones. */
interface Judged {
  readonly reel: number
  readonly verdict: Verdict
  readonly chance: number
  /** What is left over, g. */
  readonly left: number
}

/** Remnants that clear come first; of the others the likelier, and of those that are short the fuller. */
const byUse: Readonly<Record<Verdict, (a: Judged, b: Judged) => number>> = {
  enough: (a, b) => a.left - b.left,
  close: (a, b) => b.chance - a.chance || b.left - a.left,
  short: (a, b) => b.left - a.left,
}

/**
 * Which reels of the shelf could do a print. With k tools a reel is enough from a chance of c^(1/k)
 * up, so that the print as a whole is as sure as was asked.
 */
export const checkShelf = (
  view: Pick<ShelfView, 'estimate' | 'cards' | 'spreads'>,
  question: ShelfQuestion,
): ShelfAnswer => {
  const { tools, printer, told = unknownPrinter, scale, confidence = 0.95, fits } = question
  const { most = Infinity } = question
  const { cards, beliefs, nets, margins, doubted } = readyReels(view, {
    fits,
    told,
    ...(printer !== undefined && { printer }),
    ...(scale !== undefined && { scale }),
  })
  const sure = confidence ** (1 / tools.length)
  const callOf = (reel: number, chance: number): Verdict => {
    if (doubted[reel] !== 0) return 'close'
    if (chance >= sure) return 'enough'
    return chance <= 1 - confidence ? 'short' : 'close'
  }
  const judged = tools.map(({ draw }) => {
    const alternatives = normalised(draw)
    const { peak_mm: likeliest } = alternatives[0]!
    const called: Readonly<Record<Verdict, Judged[]>> = { enough: [], close: [], short: [] }
    for (let reel = 0; reel < cards.length; reel++) {
      let chance = 0
      for (const { weight, peak_mm } of alternatives) {
        chance += weight * margins.chanceAt(reel, peak_mm)
      }
      const verdict = callOf(reel, chance)
      const left = margins.leftOverAt(reel, likeliest).value
      called[verdict].push({ reel, verdict, chance, left })
    }
    for (const call of calls) called[call].sort(byUse[call])
    return { likeliest, called, ranked: calls.flatMap((call) => called[call]) }
  })
  const rankings = tools.map(({ tool, draw }, place): ToolRanking => {
    const { likeliest, called, ranked } = judged[place]!
    const advised = new Set(called.close.slice(0, closeAdvised))
    const nextOf = (one: Judged): NextMeasure | null => {
      if (!advised.has(one)) return null
      const input = { belief: beliefs[one.reel]!, printer: told, draw, confidence: sure }
      return nextMeasures(input, view.spreads.priors)[0] ?? null
    }
    return {
      tool,
      draw_mm: millimetres(likeliest),
      counts: {
        enough: called.enough.length,
        close: called.close.length,
        short: called.short.length,
      },
      reels: ranked.slice(0, most).map((one): RankedReel => {
        const { reel, verdict, chance } = one
        return {
          card: cards[reel]!,
          verdict,
          chance,
          net: nets[reel]!,
          leftOver: margins.leftOverAt(reel, likeliest),
          margin: margins.marginAt(reel, likeliest),
          next: nextOf(one),
        }
      }),
    }
  })
  const { verdict, chance, given } = callOfShelf(judged.map(({ ranked }) => ranked))
  return { verdict, chance, taken: given.map(({ reel }) => cards[reel]!.id), tools: rankings }
}

const order: Readonly<Record<Verdict, number>> = { enough: 0, close: 1, short: 2 }

/**
 * By the best reels that can be given to all tools at once, as sure as the least sure of them.
 *
 * @param ranked - for each tool its reels, enough first and short last
 */
const callOfShelf = (
  ranked: readonly (readonly Judged[])[],
): Pick<ShelfAnswer, 'verdict' | 'chance'> & { readonly given: readonly Judged[] } => {
  for (const verdict of calls) {
    const wanted = ranked.map((reels) => {
      const end = reels.findIndex((one) => order[one.verdict] > order[verdict])
      return end < 0 ? reels : reels.slice(0, end)
    })
    const given = giveEach(wanted)
    if (given === undefined) continue
    return { verdict, chance: given.reduce((product, { chance }) => product * chance, 1), given }
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
const giveEach = (wanted: readonly (readonly Judged[])[]): readonly Judged[] | undefined => {
  const takenBy = new Map<number, { readonly tool: number; readonly one: Judged }>()
  const give = (tool: number, tried: Set<number>): boolean => {
    for (const one of wanted[tool]!) {
      if (tried.has(one.reel)) continue
      tried.add(one.reel)
      const before = takenBy.get(one.reel)
      if (before === undefined || give(before.tool, tried)) {
        takenBy.set(one.reel, { tool, one })
        return true
      }
    }
    return false
  }
  if (!wanted.every((_, tool) => give(tool, new Set()))) return undefined
  return [...takenBy.values()].toSorted((a, b) => a.tool - b.tool).map(({ one }) => one)
}
