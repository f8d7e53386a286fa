import type { SlateJson, WaitingRowJson } from '../contract/index.ts'
import type { PrintDigest } from './print-digest.ts'
import { copiesWaiting } from './slate-order.ts'

/** Waiting prints as data, in the order given. */
export const slateToJson = (
  rows: readonly WaitingRowJson[],
  prints: ReadonlyMap<string, PrintDigest>,
): SlateJson => ({
  waiting: rows.map((row) => {
    const print = prints.get(row.print)
    return {
      row,
      waits: copiesWaiting(row),
      file: print?.file ?? null,
      layers: print?.layers.count ?? null,
      tools: (print?.tools ?? []).map((tool) => ({
        tool,
        draw_mm: Math.max(...print!.drawOf(tool, undefined).map(({ peak_mm }) => peak_mm)),
      })),
    }
  }),
})
