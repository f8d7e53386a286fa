import { longestPrint_s, type RunningRowJson } from '../contract/index.ts'
import { formatIsoMinute } from '../units/index.ts'
import { findRow, rowsOf } from './find-row.ts'
import type { PrintDigest } from './print-digest.ts'
import { type BusyTold, reelsRunning } from './running-on.ts'
import type { ShelfView } from './shelf-view.ts'
import { waitingTakes } from './waiting-takes.ts'

/**
 * The prints that run by the ledger as a match takes printers at work. What was told of a printer goes before
 * what the ledger has of it.
 *
 * @param prints - theirs, as far as they were kept
 * @param started - as `runningOf`
 * @param told - what the person told beside
 */
export const startedAsBusy = (
  view: ShelfView,
  prints: ReadonlyMap<string, PrintDigest>,
  started: readonly RunningRowJson[],
  told: readonly BusyTold[],
): { readonly busy: readonly BusyTold[]; readonly notes: readonly string[] } => {
  const named = new Set(
    told.flatMap(({ printer }) => {
      const found = findRow(view.rows, 'printer', printer)
      return found.ok ? [found.value.id] : []
    }),
  )
  const busy: BusyTold[] = []
  const notes: string[] = []
  for (const row of started) {
    if (named.has(row.printer)) continue
    const printer = rowsOf(view.rows, 'printer').find(({ id }) => id === row.printer)
    const print = prints.get(row.print)
    const what = `${print?.file ?? 'A print that was never kept'}, started ${formatIsoMinute(row.started_at)}${printer === undefined ? '' : ` on ${printer.name}`}`
    if (printer === undefined || printer.retired === true) {
      notes.push(`${what}, is not counted: its printer is not in use. Say what became of it.`)
      continue
    }
    const fed = reelsRunning(view, printer, print, row.reels)
    if (!fed.ok) {
      notes.push(`${what}, is not counted: ${fed.refusal.message}`)
      continue
    }
    const reels = [...new Set(row.reels.map(({ reel }) => reel))].join(', then ')
    notes.push(`${what} from ${reels}, runs: what it takes comes off first.`)
    const late_s = endOf(view, row, print)
    const until = late_s === null ? null : Date.parse(row.started_at) + 1000 * late_s
    busy.push({
      printer: row.printer,
      ...(until !== null && { until: new Date(until).toISOString() }),
      print: row.print,
      reels: row.reels,
      ...(row.firmware !== undefined && { firmware: row.firmware }),
      ...(row.waiting !== undefined && { waiting: row.waiting }),
    })
  }
  return { busy, notes }
}

/** As late as it may well end, s after its start; null where nobody can tell. */
const endOf = (
  view: ShelfView,
  { takes, printer }: RunningRowJson,
  print: PrintDigest | undefined,
): number | null => {
  const late_s =
    takes?.late_s ?? waitingTakes(view, { printers: [printer] }, print?.time ?? null)?.late_s
  return late_s === undefined || late_s === null ? null : Math.min(late_s, longestPrint_s)
}
