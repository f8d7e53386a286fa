import {
  type FirmwareFamilyId,
  type PrintReading,
  type ReadOptions,
  readPrint,
} from '../../src/print/index.ts'
import type { Outcome } from '../../src/units/index.ts'
import { families } from './case.ts'
import type { TwinResult, TwinTool } from './twin.ts'

export const readFast = (
  bytes: Uint8Array,
  options: ReadOptions = {},
  slices: readonly Uint8Array[] = [bytes],
): Outcome<PrintReading> => readPrint(slices, options)

/**
 * The fast reader's outcome in the twin's shape. Families that draw the same are told as one by
 * their first; `byFamily` has only those firsts.
 */
export const asTwin = (outcome: Outcome<PrintReading>): TwinResult => {
  if (!outcome.ok) {
    const { code, line } = outcome.refusal
    return line === undefined ? { ok: false, code } : { ok: false, code, line }
  }
  const reading = outcome.value
  const byFamily = new Map<FirmwareFamilyId, { readonly tools: ReadonlyMap<number, TwinTool> }>()
  for (const group of reading.families) {
    const [first] = group.families
    const tools = new Map(
      group.tools.map(
        (tool) =>
          [
            tool.tool,
            {
              net_mm: tool.net_mm,
              peak_mm: tool.peak_mm,
              startMacro_mm: tool.startMacro_mm,
              layerEnd_mm: [...tool.layerEnd_mm],
            },
          ] as const,
      ),
    )
    if (first) byFamily.set(first, { tools })
  }
  return {
    ok: true,
    byFamily,
    layers: {
      heights: [...reading.layers.height_mm],
      passes: reading.layers.passes,
      spiral: reading.layers.spiral,
    },
    stops: reading.stops.map(({ kind, line, layer, draw_mm }) => ({
      kind,
      line,
      layer,
      draw_mm: new Map([...draw_mm].entries()),
    })),
    findingCodes: new Set(reading.findings.map(({ code }) => code)),
    lines: reading.lines,
  }
}

/** Peaks of each family by tool, also of those told together with another. */
export const peaksByFamily = (
  reading: PrintReading,
): ReadonlyMap<FirmwareFamilyId, ReadonlyMap<number, number>> =>
  new Map(
    families.flatMap((family) => {
      const group = reading.families.find((candidate) => candidate.families.includes(family))
      return group
        ? [[family, new Map(group.tools.map(({ tool, peak_mm }) => [tool, peak_mm]))] as const]
        : []
    }),
  )

/** Everything of an outcome as text, so that two can be compared quickly. */
export const digest = (outcome: Outcome<PrintReading>): string =>
  JSON.stringify(outcome, (_, value: unknown) =>
    ArrayBuffer.isView(value) ? [...(value as Float64Array | Int32Array)] : value,
  )
