import { estimateShelf, shelfBelief } from '../src/estimate/index.ts'
import { chanceAt, judge, leftOverAt, marginModel, unknownPrinter } from '../src/verdict/index.ts'
import { inventedShelf } from './invented-shelf.ts'
import { markdownTable } from './markdown-table.ts'
import { median } from './median.ts'

/*
 * Time to judge every reel of a shelf of 1 000, with 100 facts each, for one print on one printer:
 *
 *     node benchmarks/ranking-speed.ts
 *
 * The estimate is made before. Each row is the median of nine runs, the first two left out.
 */

const reels = 1000
const { catalogue, facts } = inventedShelf(reels)
const estimate = estimateShelf(catalogue, facts)
const on = { printer: 'printer 3', scale: 'scale 0' }
const draw_mm = 60_000
const ids = catalogue.reels.map(({ id }) => id)

const beliefs = ids.map((id) => shelfBelief(estimate, id, { ...on, examine: 'last' }))
const models = beliefs.map((belief) => marginModel(belief, unknownPrinter))
const draw = [{ weight: 1, peak_mm: draw_mm }]

const works: readonly (readonly [string, () => void])[] = [
  [
    'belief, its last weighing examined',
    () => {
      for (const id of ids) shelfBelief(estimate, id, { ...on, examine: 'last' })
    },
  ],
  [
    'belief, all weighings examined',
    () => {
      for (const id of ids) shelfBelief(estimate, id, on)
    },
  ],
  [
    'margin model',
    () => {
      for (const belief of beliefs) marginModel(belief, unknownPrinter)
    },
  ],
  [
    'chance and what is left over',
    () => {
      for (const model of models) {
        chanceAt(model, draw_mm)
        leftOverAt(model, draw_mm)
      }
    },
  ],
  [
    'the whole verdict, without a draw curve',
    () => {
      for (const belief of beliefs) judge({ belief, draw })
    },
  ],
]

const rows = works.map(([what, work]) => {
  const times = Array.from({ length: 11 }, () => {
    const from = performance.now()
    work()
    return performance.now() - from
  })
  return [what, median(times.slice(2)).toFixed(1)]
})
const columns = [
  { heading: `of ${reels} reels`, figures: false },
  { heading: 'ms', figures: true },
]
console.log(markdownTable(columns, rows).join('\n'))
