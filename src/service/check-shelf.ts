import type { ReelBelief } from '../estimate/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import { type Grams, type Measured, type Millimetres, millimetres } from '../units/index.ts'
import {
  chanceOfDraw,
  type DrawAlternative,
  leftOverAt,
  marginAt,
  type NextMeasure,
  nextMeasures,
  type Printer,
  unknownPrinter,
  type Verdict,
} from '../verdict/index.ts'
import { believedReels } from './believed-reels.ts'
import { isInUse } from './reel-card.ts'
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
  /** Which reels come into question. */
  readonly fits: (card: ReelCard) => boolean
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

/** Measures are worked out for the likeliest of the close reels: each takes a millisecond or two. */
const closeAdvised = 4

/**
 * Which reels of the shelf could do a print. With k tools a reel is enough from a chance of c^(1/k)
 * up, so that the print as a whole is as sure as was asked.
 */
export const checkShelf = (
  { estimate, cards, spreads: { priors } }: Pick<ShelfView, 'estimate' | 'cards' | 'spreads'>,
  { tools, printer, told = unknownPrinter, scale, confidence = 0.95, fits }: ShelfQuestion,
): ShelfAnswer => {
  const onShelf = [...cards.values()].filter(
    (card) => isInUse(card) && estimate.book.reelAt.has(card.id) && fits(card),
  )
  const believed = believedReels(estimate, told, {
    ...(printer !== undefined && { printer }),
    ...(scale !== undefined && { scale }),
  })
  const beliefs = onShelf.map((card) => ({ card, believed: believed(card.id) }))
  const sure = confidence ** (1 / tools.length)
  const callOf = (chance: number, { used }: ReelBelief): Verdict => {
    if (used.some(({ surprising }) => surprising)) return 'close'
    if (chance >= sure) return 'enough'
    return chance <= 1 - confidence ? 'short' : 'close'
  }
  const rankings = tools.map(({ tool, draw }): ToolRanking => {
    const likeliest = draw.reduce((most, each) => (each.weight > most.weight ? each : most))
    const ranked = beliefs
      .map(({ card, believed: { belief, model, net } }) => {
        const chance = chanceOfDraw(model, draw)
        return {
          card,
          belief,
          verdict: callOf(chance, belief),
          chance,
          net,
          leftOver: leftOverAt(model, likeliest.peak_mm),
          margin: marginAt(model, likeliest.peak_mm),
        }
      })
      .toSorted(byUse)
    const advised = new Set(
      ranked.filter(({ verdict }) => verdict === 'close').slice(0, closeAdvised),
    )
    return {
      tool,
      draw_mm: millimetres(likeliest.peak_mm),
      reels: ranked.map((reel): RankedReel => {
        const { card, verdict, chance, net, leftOver, margin, belief } = reel
        const input = { belief, printer: told, draw, confidence: sure }
        const next = advised.has(reel) ? (nextMeasures(input, priors)[0] ?? null) : null
        return { card, verdict, chance, net, leftOver, margin, next }
      }),
    }
  })
  return { ...callOfShelf(rankings), tools: rankings }
}

const order: Readonly<Record<Verdict, number>> = { enough: 0, close: 1, short: 2 }

/** Remnants that clear come first; of the others the likelier, and of those that are short the fuller. */
const byUse = (
  a: Omit<RankedReel, 'next' | 'card'>,
  b: Omit<RankedReel, 'next' | 'card'>,
): number =>
  order[a.verdict] - order[b.verdict] ||
  (a.verdict === 'close' ? b.chance - a.chance : 0) ||
  (a.verdict === 'enough' ? 1 : -1) * (a.leftOver.value - b.leftOver.value)

/** By the best reels that can be given to all tools at once, as sure as the least sure of them. */
const callOfShelf = (
  rankings: readonly ToolRanking[],
): Pick<ShelfAnswer, 'verdict' | 'chance' | 'taken'> => {
  for (const verdict of ['enough', 'close', 'short'] as const) {
    const given = giveEach(
      rankings.map(({ reels }) =>
        reels.filter((reel) => order[reel.verdict] <= order[verdict]).map(({ card }) => card.id),
      ),
    )
    if (given === undefined) continue
    const chance = rankings.reduce((product, { reels }, tool) => {
      const taken = reels.find(({ card }) => card.id === given[tool])
      return product * (taken?.chance ?? 0)
    }, 1)
    return { verdict, chance, taken: given }
  }
  return { verdict: 'short', chance: 0, taken: [] }
}

/**
 * A reel of its own for every tool, by augmenting paths; the first wanted is tried first.
 *
 * @param wanted - for each tool the reels that would do
 * @returns in the order of the tools; undefined where there is no such choice
 * @see H. W. Kuhn, Naval Res. Logist. Quart. 2 (1955) 83–97, from memory
 */
const giveEach = (wanted: readonly (readonly string[])[]): readonly string[] | undefined => {
  const takenBy = new Map<string, number>()
  const give = (tool: number, tried: Set<string>): boolean => {
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
  const given: string[] = []
  for (const [reel, tool] of takenBy) given[tool] = reel
  return given
}
