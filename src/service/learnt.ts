import type { FactJson, LearntJson, MeasuredJson, PaceJson } from '../contract/index.ts'
import {
  makePosterior,
  type Pace,
  paceFigures,
  printerPosterior,
  scalePosterior,
} from '../estimate/index.ts'
import type { Measured } from '../units/index.ts'
import { carrierLabelsOf } from './carrier-labels-of.ts'
import { rowsOf } from './find-row.ts'
import { paceOfPrinter } from './pace-of-printer.ts'
import type { ShelfView } from './shelf-view.ts'

const figure = ({ value, u }: Measured): MeasuredJson => ({ value, u })

const paceToJson = (pace: Pace): PaceJson => {
  const { preparation_s, moves, waits } = paceFigures(pace)
  return {
    timed_prints: pace.runs,
    preparation_s: figure(preparation_s),
    moves: figure(moves),
    waits: figure(waits),
  }
}

/** What the shelf has taught of its makes, printers and scales, and from how much. */
export const learnt = ({ rows, estimate, standing, cards }: ShelfView): LearntJson => {
  const { book } = estimate
  const count = (of: (fact: FactJson) => string | undefined): ReadonlyMap<string, number> => {
    const counts = new Map<string, number>()
    for (const fact of standing.facts) {
      const id = of(fact)
      if (id !== undefined) counts.set(id, (counts.get(id) ?? 0) + 1)
    }
    return counts
  }
  const reels = new Map<string, number>()
  for (const { opened } of cards.values()) {
    reels.set(opened.make, (reels.get(opened.make) ?? 0) + 1)
  }
  const carriers = count((fact) => (fact.kind === 'carrier-weighed' ? fact.make : undefined))
  const prints = count((fact) => (fact.kind === 'drew' ? fact.printer : undefined))
  const weighings = count(scaleOf)
  return {
    makes: rowsOf(rows, 'make')
      .filter(({ id }) => book.makeAt.has(id))
      .map((make) => {
        const { id } = make
        const { tare, overfill, density, linearDensity } = makePosterior(estimate, id)
        return {
          id,
          tare_g: figure(tare),
          overfill: figure(overfill),
          density_g_per_cm3: figure(density),
          linear_density_g_per_m: figure(linearDensity),
          reels: reels.get(id) ?? 0,
          carriers_weighed: carriers.get(id) ?? 0,
          carrier_labels_g: carrierLabelsOf({ cards }, make),
        }
      }),
    printers: rowsOf(rows, 'printer')
      .filter(({ id }) => book.printerAt.has(id))
      .map(({ id }) => {
        const { feedFactor, startAllowance } = printerPosterior(estimate, id)
        return {
          id,
          feed_factor: figure(feedFactor),
          start_allowance_mm: figure(startAllowance),
          prints: prints.get(id) ?? 0,
          pace: paceToJson(paceOfPrinter({ standing }, id)),
        }
      }),
    scales: rowsOf(rows, 'scale')
      .filter(({ id }) => book.scaleAt.has(id))
      .map(({ id }) => ({
        id,
        gain: figure(scalePosterior(estimate, id)),
        weighings: weighings.get(id) ?? 0,
      })),
  }
}

const scaleOf = (fact: FactJson): string | undefined => {
  if (fact.kind === 'weighed' || fact.kind === 'carrier-weighed') return fact.weighing.scale
  if (fact.kind === 'opened') return fact.gross_when_new?.scale
  return fact.kind === 'measured' ? fact.cut?.weighing.scale : undefined
}
