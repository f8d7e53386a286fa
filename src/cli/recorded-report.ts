import type { FactJson } from '../contract/index.ts'
import { describeFact, ledgerNames } from '../ledger/index.ts'
import { nameOfReel, type Recorded, type ReelChange, rowName } from '../service/index.ts'
import { sayFactId } from './contradiction-sentence.ts'
import { sayMass, sayMeasuredLength } from './say.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { wrap } from './wrap.ts'

/** A line of the sheet: what it is about, and what is to be said. */
export type SheetLine = readonly [label: string, text: string]

/** Width of the labels on the left. */
const labels = 11

/** Lines of a sheet, each with its label to the left. */
export const sheetLines = (lines: readonly SheetLine[]): string =>
  lines.map(([label, text]) => wrap(harmless(text), `  ${label.padEnd(labels)}`)).join('\n')

const holds = ({ now }: ReelChange): string =>
  now === undefined ? '' : `${sayMass(now.net)}, ${sayMeasuredLength(now.length)}`

/** What was recorded: the answer first, then each reel and each fact with its id. */
export const recordedReport = (
  terminal: Terminal,
  recorded: Recorded,
  more: readonly SheetLine[] = [],
): string => {
  const { facts, rows, reels, notes, view } = recorded
  const [reel, ...others] = reels
  const name = (change: ReelChange): string => {
    const card = view.cards.get(change.reel)
    return card === undefined ? 'no longer on the shelf' : nameOfReel(card)
  }
  const lines: SheetLine[] = []
  let answer = 'RECORDED'
  if (reel !== undefined && others.length === 0) {
    answer += reel.now === undefined ? `  ${reel.reel}` : `  ${reel.reel} holds ${holds(reel)}`
    lines.push(['reel', name(reel)])
    if (reel.before !== undefined && reel.now !== undefined) {
      lines.push([
        'before',
        `${sayMass(reel.before.net)}, ${sayMeasuredLength(reel.before.length)}`,
      ])
    }
  } else {
    for (const change of reels) {
      const before = change.before === undefined ? '' : `, ${sayMass(change.before.net)} before`
      lines.push([change.reel, `${name(change)}: ${holds(change)}${before}`])
    }
  }
  lines.push(...more)
  for (const row of rows) {
    if (row.kind === 'running')
      lines.push(['runs', `${sayFactId(row.id)}  ${row.ended ?? 'it runs'}`])
    else if (row.kind !== 'priors' && row.kind !== 'plan')
      lines.push([row.kind, `${row.id}  ${rowName(row)}`])
  }
  const names = ledgerNames(view.rows, recorded.prints)
  for (const fact of facts) lines.push(['fact', factLine(fact, names)])
  for (const note of notes) lines.push(['note', note])
  return `${paint(terminal, 'strong', answer)}\n\n${sheetLines(lines)}\n`
}

const factLine = (fact: FactJson, names: ReturnType<typeof ledgerNames>): string =>
  `${sayFactId(fact.id)}  ${describeFact(fact, names)}`
