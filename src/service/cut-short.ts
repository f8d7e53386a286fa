import type { DrewJson, WaitingRowJson } from '../contract/index.ts'
import { describeFact, ledgerNames } from '../ledger/index.ts'
import { formatIsoMinute } from '../units/index.ts'
import type { ShelfView } from './shelf-view.ts'

/**
 * A sentence for each draw of a waiting print that ended before its end since it came to the slate, oldest
 * first: its copy waits still. One that was finished afterwards is taken as that copy made anew.
 */
export const cutShort = (
  { rows, standing }: Pick<ShelfView, 'rows' | 'standing'>,
  { print, added_at }: Pick<WaitingRowJson, 'print' | 'added_at'>,
): readonly string[] => {
  const drawn = standing.facts
    .filter((fact): fact is DrewJson => fact.kind === 'drew' && fact.print === print)
    .filter(({ at }) => Date.parse(at) >= Date.parse(added_at))
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
  const finished = drawn.findLastIndex(({ stopped_at: stop }) => stop === undefined)
  const cut = drawn.slice(finished + 1)
  if (cut.length === 0) return []
  const names = ledgerNames(rows)
  return cut.map(
    (fact) =>
      `Cut short ${formatIsoMinute(fact.at)}; reel ${fact.reel} ${wordsOf(fact, names)}. The copy waits still, whole.`,
  )
}

/** Its file is named beside; who said so and why stands with the reel. */
const wordsOf = (
  { print: _print, by: _by, note: _note, ...drew }: DrewJson,
  names: ReturnType<typeof ledgerNames>,
): string => describeFact(drew, names)
