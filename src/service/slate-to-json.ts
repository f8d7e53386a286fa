import type { SlateJson, WaitingRowJson } from '../contract/index.ts'
import { secondsToJson } from './clock-to-json.ts'
import { cutShort } from './cut-short.ts'
import type { PrintDigest } from './print-digest.ts'
import type { ShelfView } from './shelf-view.ts'
import { copiesWaiting } from './slate-order.ts'
import { waitingTakes } from './waiting-takes.ts'

/** Waiting prints as data, in the order given. */
export const slateToJson = (
  view: Pick<ShelfView, 'rows' | 'standing'>,
  rows: readonly WaitingRowJson[],
  prints: ReadonlyMap<string, PrintDigest>,
): SlateJson => ({
  waiting: rows.map((row) => {
    const print = prints.get(row.print)
    const takes = waitingTakes(view, row, print?.time ?? null)
    return {
      row,
      waits: copiesWaiting(row),
      file: print?.file ?? null,
      layers: print?.layers.count ?? null,
      takes: takes && secondsToJson(takes),
      cut_short: cutShort(view, row),
      tools: (print?.tools ?? []).map((tool) => ({
        tool,
        draw_mm: Math.max(...print!.drawOf(tool, undefined).map(({ peak_mm }) => peak_mm)),
      })),
    }
  }),
})
