import { nameOfReel, type Rest } from '../service/index.ts'
import { formatAgo, formatMeasured, grams, gramsPerMetre, measured } from '../units/index.ts'
import type { ReelOnShelf } from './reel-on-shelf.ts'
import { sayCount, sayLength, sayLinearDensity, sayMass, upTo } from './say.ts'
import { sayDay } from './say-moment.ts'
import { row } from './sheet-row.ts'
import { harmless, paint, type Terminal } from './terminal.ts'

/** What the figures of a reel of the shelf rest on: weighings, what is known, what is guessed. */
export const restsOn = (terminal: Terminal, onShelf: ReelOnShelf): readonly string[] => {
  const { card, working } = onShelf
  const where = card.place === undefined ? '' : `; ${harmless(card.place)}`
  return [
    paint(terminal, 'strong', `  ${card.id}, ${harmless(nameOfReel(card))}${where}`),
    ...weighingRows(onShelf),
    ...restRows(working.rests),
  ]
}

/** Rows of the quantities. */
export const restRows = (rests: readonly Rest[]): readonly string[] =>
  rests.map(({ id, value, on }) => {
    switch (id) {
      case 'tare':
        return row('tare', sayMass(measured(grams(value.value), value.u)), on)
      case 'linear_density':
        return row('per metre', sayLinearDensity(measured(gramsPerMetre(value.value), value.u)), on)
      case 'density':
        return row('per cm³', formatMeasured(value, 'g'), on)
      case 'diameter':
        return row('mm across', formatMeasured(value, '').trim(), on)
      case 'feed_factor':
        return row('feed', formatMeasured(value, '').trim(), on)
      default:
        return id satisfies never
    }
  })

/** What the net hangs on: the weighing told now, else the latest kept, and one when it was new. */
export const weighingRows = ({
  card,
  working,
  weighing,
  surprise,
  now,
}: ReelOnShelf): readonly string[] => {
  const { weighings, since } = working
  const rows: string[] = []
  if (weighing) {
    const off = surprise?.surprising === true ? `, ${offBy(surprise.innovation)}` : ''
    rows.push(
      row(
        'weighed',
        `${upTo(weighing.reading, 2)} g`,
        `now${off}; not written down: reelreckon weigh ${card.id} ${upTo(weighing.reading, 2)}g does`,
      ),
    )
  }
  const latest = weighings.findIndex(({ whenNew }) => !whenNew)
  for (const [place, { reading_g, at, whenNew }] of weighings.entries()) {
    if (!whenNew && (place !== latest || weighing)) continue
    const fed = place === 0 && !weighing ? `; ${sinceThen(since)}` : ''
    const when = `${sayDay(at)}, ${formatAgo(at, now)}${fed}`
    rows.push(row(whenNew ? 'when new' : 'weighed', `${upTo(reading_g, 2)} g`, when))
  }
  if (rows.length === 0) {
    rows.push(row('weighed', 'never', `by its label; ${sinceThen(since)}`))
  }
  return rows
}

const offBy = (innovation: number): string =>
  `${upTo(Math.abs(innovation), 0)} g ${innovation > 0 ? 'more' : 'less'} than expected`

const sinceThen = ({ draws, length_mm }: ReelOnShelf['working']['since']): string =>
  draws === 0 ? 'nothing fed since' : `${sayCount(draws, 'print')} since, ${sayLength(length_mm)}`
