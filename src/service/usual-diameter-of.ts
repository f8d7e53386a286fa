import type { ReelCard } from '../ledger/index.ts'
import { diameterOfReel, isInUse, usualDiameter_mm } from './reel-card.ts'
import type { ShelfView } from './shelf-view.ts'

/** Nominal diameters that differ by less are the same, mm. */
const sameDiameter = 0.2

/** Whether two nominal diameters, mm, are of the same kind of filament. */
export const isSameDiameter = (a: number, b: number): boolean => Math.abs(a - b) < sameDiameter

/** Whether a reel's filament has a nominal diameter, mm. */
export const hasDiameter = (card: Pick<ReelCard, 'make'>, diameter_mm: number): boolean =>
  isSameDiameter(diameterOfReel(card), diameter_mm)

/** Nominal diameter of what a printer was fed last, mm; undefined where it is not known. */
export const diameterFedLast = (
  { cards, standing }: Pick<ShelfView, 'cards' | 'standing'>,
  printer: string | undefined,
): number | undefined => {
  const last = standing.facts.findLast((fact) => fact.kind === 'drew' && fact.printer === printer)
  const fed = last?.kind === 'drew' ? cards.get(last.reel) : undefined
  return fed && diameterOfReel(fed)
}

/** By the printer. A shelf is looked through once, however many prints are asked about while it stands. */
const kept = new WeakMap<object, Map<string | undefined, number>>()

/** Diameter a print is asked for with: what the printer was fed last, else what most reels have. */
export const usualDiameterOf = (
  view: Pick<ShelfView, 'cards' | 'standing'>,
  printer: string | undefined,
): number => {
  const ofView = kept.get(view) ?? new Map<string | undefined, number>()
  kept.set(view, ofView)
  const diameter = ofView.get(printer) ?? diameterFedLast(view, printer) ?? commonest(view)
  ofView.set(printer, diameter)
  return diameter
}

/** What most reels in use have. */
const commonest = ({ cards }: Pick<ShelfView, 'cards'>): number => {
  const counts = new Map<number, number>()
  for (const card of cards.values()) {
    if (!isInUse(card)) continue
    const diameter = diameterOfReel(card)
    counts.set(diameter, (counts.get(diameter) ?? 0) + 1)
  }
  return [...counts].reduce((most, each) => (each[1] > most[1] ? each : most), [
    usualDiameter_mm,
    0,
  ] as const)[0]
}
