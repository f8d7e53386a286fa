import { normalCdf } from '../estimate/index.ts'
import type { Measured } from '../units/index.ts'

/** A quantity to be drawn: a bar with a soft end. */
export interface Bar {
  readonly label: string
  readonly grams: Measured
  /** Stands after the bar. */
  readonly figure: string
}

/** An interval to be marked under the bars, g; null where it lies past the end. */
export interface Mark {
  readonly label: string
  readonly early: number
  readonly likely: number | null
  readonly late: number | null
  /** Where the print ends, g. */
  readonly end: number
}

const labelWidth = 10
const barWidth = 50

/** How full a cell is drawn, by the chance that the quantity reaches past it. */
const shades: readonly (readonly [chance: number, cell: string])[] = [
  [0.975, '█'],
  [0.75, '▓'],
  [0.25, '▒'],
  [0.025, '░'],
]

const steps = [1, 2, 5]

/** The smallest 1, 2 or 5 times a power of ten that makes at most this many steps of the whole. */
const niceStep = (whole: number, most: number): number => {
  for (let power = 10 ** Math.floor(Math.log10(whole / most)); ; power *= 10) {
    const step = steps.map((each) => each * power).find((each) => whole / each <= most)
    if (step !== undefined) return step
  }
}

/** The smallest 1, 2 or 5 times a power of ten, or sum of up to five of these, that is as much. */
export const niceWhole = (most: number): number => {
  const step = niceStep(Math.max(1, most), 5)
  // The tenth keeps 3 × 0.1 from needing a fourth step.
  return step * Math.ceil(Math.max(1, most) / step - 1e-9)
}

/**
 * Bars of grams on one scale, each end as soft as the quantity is uncertain, and under them the
 * interval in which a reel runs dry.
 *
 * @param bars - grams may be negative or uncertain; drawn from 0
 * @returns lines of at most 80 columns
 */
export const scaleDrawing = (bars: readonly Bar[], marks: readonly Mark[]): readonly string[] => {
  const most = Math.max(1, ...bars.map(({ grams: { value, u } }) => value + 2.2 * u))
  const step = niceStep(most, 5)
  const whole = niceWhole(most)
  const perCell = whole / barWidth
  const cellOf = (grams: number): number =>
    Math.min(barWidth - 1, Math.max(0, Math.floor(grams / perCell)))
  return [
    ...axis(whole, step),
    ...bars.map(({ label, grams, figure }) => {
      return `  ${label.padEnd(labelWidth)}${softBar(grams, perCell, barWidth)}  ${figure}`
    }),
    ...marks.map((mark) => `  ${mark.label.padEnd(labelWidth)}${marked(mark, cellOf)}`),
  ]
}

/** A bar from 0 whose end is as soft as the quantity is uncertain. */
export const softBar = (grams: Measured, perCell: number, cells: number): string =>
  Array.from({ length: cells }, (_, cell) => shade(grams, (cell + 0.5) * perCell)).join('')

const shade = ({ value, u }: Measured, at: number): string => {
  const chance = u === 0 ? Number(value > at) : normalCdf((value - at) / u)
  return shades.find(([least]) => chance >= least)?.[1] ?? ' '
}

/** The numbers above the ruler, each centred on its tick, and the ruler. */
const axis = (whole: number, step: number): readonly string[] => {
  const ticks = Math.round(whole / step)
  let names = ''
  let ruler = ''
  for (let tick = 0; tick <= ticks; tick++) {
    const column = Math.round((barWidth * tick) / ticks)
    const name = String(Number((tick * step).toPrecision(6)))
    names = names.padEnd(column - Math.floor(name.length / 2)) + name
    ruler = ruler.padEnd(column, '─') + (tick === 0 ? '├' : tick === ticks ? '┤' : '┬')
  }
  const margin = ' '.repeat(2 + labelWidth)
  return [`${margin}${names} g`, margin + ruler]
}

const marked = ({ early, likely, late, end }: Mark, cellOf: (grams: number) => number): string => {
  const cells = Array.from({ length: barWidth }, () => ' ')
  const from = cellOf(early)
  const to = cellOf(late ?? end)
  for (let cell = from; cell <= to; cell++) cells[cell] = '─'
  cells[from] = '├'
  if (late !== null) cells[to] = '┤'
  if (likely !== null) cells[cellOf(likely)] = '▲'
  return cells.join('').trimEnd()
}
