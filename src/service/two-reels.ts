import type { PrintTold } from '../estimate/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import { usualChange } from '../match/index.ts'
import type { Layers } from '../print/index.ts'
import {
  chanceAt,
  chanceOfSome,
  type DrawAlternative,
  type Printer,
  unknownPrinter,
} from '../verdict/index.ts'
import { believedReels } from './believed-reels.ts'
import type { ShelfAnswer, ShelfQuestion } from './check-shelf.ts'
import { rowsOf } from './find-row.ts'
import { feedingOf } from './running-prints.ts'
import type { ShelfView } from './shelf-view.ts'

/** What a change takes of the reel that comes in, mm, two deviations up. */
const changeTakes = (rows: ShelfView['rows'], printer: string | undefined): number => {
  const row = rowsOf(rows, 'printer').find(({ id }) => id === printer)
  const { value, u } = row?.change_mm ?? usualChange
  return value + 2 * u
}

/** More reels of one kind are not tried against each other: the fullest will do. */
const mostOfAKind = 12

/** A print that two reels do, where none does it alone. */
export interface TwoReels {
  readonly first: ReelCard
  readonly second: ReelCard
  /** Finished by the first, 1-based. */
  readonly afterLayer: number
  readonly height_mm: number
}

/** One tool of a print, and the reels that come into question for it. */
export interface TwoReelsAsked {
  readonly draw: readonly DrawAlternative[]
  readonly layers: Layers
  readonly printer?: string
  readonly told?: Printer
  readonly printTold?: PrintTold
  readonly confidence: number
  readonly cards: readonly ReelCard[]
}

/**
 * The two reels of one material and colour that do a print together, with one change at a layer end, as
 * sure as is asked; of several pairs the one that holds least. Null where no two do.
 */
export const twoReels = (
  { estimate, rows }: Pick<ShelfView, 'estimate' | 'rows'>,
  { draw, layers, printer, told = unknownPrinter, printTold, confidence, cards }: TwoReelsAsked,
): TwoReels | null => {
  // The heaviest reading: what is safe under it is safe under the others.
  const [worst] = draw.toSorted((a, b) => b.peak_mm - a.peak_mm)
  const ends = worst?.layerEnd_mm
  if (worst === undefined || ends === undefined || ends.length < 2) return null
  const believed = believedReels(estimate, told, {
    ...(printer !== undefined && { printer }),
    ...(printTold && { printTold }),
  })
  const asked = Math.sqrt(confidence)
  const changeTakes_mm = changeTakes(rows, printer)
  let best: (TwoReels & { readonly holds: number }) | null = null
  for (const alike of Map.groupBy(cards, kindOf).values()) {
    const reels = alike
      .map((card) => ({ card, of: believed(card.id) }))
      .filter(({ of }) => !of.belief.used.some(({ surprising }) => surprising))
      .filter(({ of }) => chanceOfSome(of.model) >= asked)
      .toSorted((a, b) => b.of.net.value - a.of.net.value)
      .slice(0, mostOfAKind)
    for (const first of reels) {
      let safe = 0
      let beyond = ends.length
      while (beyond - safe > 1) {
        const middle = (safe + beyond) >> 1
        if (chanceAt(first.of.model, ends[middle - 1]!) >= asked) safe = middle
        else beyond = middle
      }
      if (safe === 0 || chanceAt(first.of.model, ends[safe - 1]!) < asked) continue
      const rest = worst.peak_mm - ends[safe - 1]! + changeTakes_mm
      for (const second of reels) {
        const holds = first.of.net.value + second.of.net.value
        if (second === first || (best !== null && holds >= best.holds)) continue
        if (chanceAt(second.of.model, rest) < asked) continue
        best = {
          first: first.card,
          second: second.card,
          afterLayer: safe,
          height_mm: layers.height_mm[safe - 1] ?? 0,
          holds,
        }
      }
    }
  }
  return best
}

/** A print that was asked of the shelf, and what the shelf answered. */
export interface ShelfAnswered extends Omit<TwoReelsAsked, 'draw' | 'layers' | 'cards'> {
  readonly answer: ShelfAnswer
  readonly tools: ShelfQuestion['tools']
  readonly layers?: Layers
}

/** Of so many reels, those ranked first, two are looked for. */
const triedForTwo = 200

/**
 * Two reels for a print that no single one is enough for, neither of which feeds a print that runs: it holds
 * less than is reckoned. Null, too, for a print of several tools.
 */
export const twoReelsBeside = (
  view: Pick<ShelfView, 'estimate' | 'rows' | 'facts'>,
  { answer, tools, layers, ...asked }: ShelfAnswered,
): TwoReels | null => {
  const [only, ...more] = tools
  if (answer.verdict === 'enough' || !only || more.length > 0 || !layers) return null
  const feeding = feedingOf(view.rows, view.facts)
  const cards = answer.tools[0]!.order.filter(({ id }) => !feeding.has(id)).slice(0, triedForTwo)
  return twoReels(view, { ...asked, draw: only.draw, layers, cards })
}

/** Reels that may follow each other in one print: alike in material and colour. */
const kindOf = ({ make, colour }: ReelCard): string =>
  JSON.stringify([make?.material ?? make?.id, colour?.name.trim().toLowerCase()])
