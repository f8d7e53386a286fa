import type { CheckedPrintJson } from '../contract/index.ts'
import { plannedChanges } from '../service/index.ts'
import { topOf } from './read-to-json.ts'
import type { Drawn } from './what-is-drawn.ts'

/** The print that was checked; null when a length or mass stands in for it. */
export const printToJson = ({ source, stretch }: Drawn): CheckedPrintJson | null => {
  if (source === undefined) return null
  const { input, print } = source
  const { lines, layers } = print.reading
  return {
    file: input.file,
    sha256: input.sha256,
    bytes: input.bytes,
    container: input.print.container,
    member: print.name,
    lines,
    layers: layers.count,
    top_mm: topOf(layers.height_mm),
    stretch: stretch ?? null,
    stretches: plannedChanges(print.reading.stops).length + 1,
  }
}
