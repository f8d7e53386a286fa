import type { MatchJson, MatchReelJson } from '../contract/index.ts'
import { normalCdf } from '../estimate/index.ts'
import { grams, measured } from '../units/index.ts'
import { sayMass } from './say.ts'
import { paint, type Terminal } from './terminal.ts'
import { cellSpans } from './trough-cells.ts'

/** Cells of a trough. */
const cells = 46

/** Stands for what a print that runs takes. */
const runningMark = '*'

/**
 * Reels as troughs on one scale of grams, what is on them as dots, and the prints laid in from the left,
 * each in its letter; the end of what is on a reel is as soft as it is uncertain.
 *
 * @param letters - of each waiting print
 * @param whole - end of the scale, g
 * @returns lines of at most 80 columns; reels that do nothing are only counted
 */
export const troughs = (
  terminal: Terminal,
  { reels }: MatchJson,
  letters: ReadonlyMap<string, string>,
  whole: number,
): readonly string[] => {
  const busy = reels.filter(({ duties, running }) => duties.length + running.length > 0)
  const idle = reels.length - busy.length
  if (busy.length === 0) return []
  return [
    paint(terminal, 'faint', `  reel   0${`${whole} g`.padStart(cells - 1)}  stays`),
    ...busy.map((reel) => troughLine(terminal, reel, letters, whole)),
    ...(busy.every(({ running }) => running.length === 0)
      ? []
      : [paint(terminal, 'faint', `  ${runningMark} runs now, and comes off first.`)]),
    ...(idle === 0
      ? []
      : [
          paint(
            terminal,
            'faint',
            `  ${idle} more ${idle === 1 ? 'reel fits and is' : 'reels fit and are'} left alone.`,
          ),
        ]),
  ]
}

const troughLine = (
  terminal: Terminal,
  { reel, holds_g, left_g, running, duties, stub, opened }: MatchReelJson,
  letters: ReadonlyMap<string, string>,
  whole: number,
): string => {
  const perCell = whole / cells
  const laid = [
    ...running.map(({ needed_g }) => ({ letter: runningMark, needed_g })),
    ...duties.map(({ waiting, needed_g }) => ({ letter: letters.get(waiting) ?? '?', needed_g })),
  ]
  const spans = cellSpans(
    laid.map(({ needed_g }) => needed_g.value / perCell),
    cells,
  )
  const cellOf = (place: number): string => {
    const middle = (place + 0.5) * perCell
    const bar = spans.findIndex(({ from, to }) => place >= from && place < to)
    if (bar >= 0) return laid[bar]!.letter
    const { value, u } = holds_g
    const chance = u === 0 ? Number(value > middle) : normalCdf((value - middle) / u)
    return chance >= 0.975 ? '·' : chance >= 0.25 ? '░' : ' '
  }
  const drawn = Array.from({ length: cells }, (_, place) => cellOf(place)).join('')
  const remark = stub ? ' stub' : opened ? ' new' : ''
  return `  ${reel.padEnd(6)}│${drawn}│ ${sayMass(measured(grams(left_g.value), left_g.u))}${paint(terminal, 'faint', remark)}`
}
