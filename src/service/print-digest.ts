import type { PrintRowJson } from '../contract/index.ts'
import { readingOfRow } from '../ledger/index.ts'
import {
  type FirmwareFamilyId,
  firmwareFamilies,
  type Layers,
  type PrintTime,
} from '../print/index.ts'
import { type DrawAlternative, drawOfReading } from '../verdict/index.ts'

/** What a plan needs of a kept print: its draws at layer ends, without the curves between. */
export interface PrintDigest {
  readonly id: string
  readonly file: string
  readonly layers: Layers
  /** Null where the print was kept without its times. */
  readonly time: PrintTime | null
  /** Ascending; tools that feed under some family. */
  readonly tools: readonly number[]
  /** The draw of a tool as a printer's firmware reads it; all families' where it is not known. */
  readonly drawOf: (tool: number, firmware: string | undefined) => readonly DrawAlternative[]
}

export const printDigest = (row: PrintRowJson): PrintDigest => {
  const { families, layers, time = null } = readingOfRow(row)
  const fed = families.flatMap(({ tools }) => tools.filter(({ peak_mm }) => peak_mm > 0))
  const tools = [...new Set(fed.map(({ tool }) => tool))].toSorted((a, b) => a - b)
  const known = new Map<string, readonly DrawAlternative[]>()
  const drawOf = (tool: number, firmware: string | undefined): readonly DrawAlternative[] => {
    const runs: FirmwareFamilyId | undefined = firmwareFamilies.find(
      ({ id }) => id === firmware,
    )?.id
    const key = `${tool} ${runs}`
    const before = known.get(key)
    if (before) return before
    const own = families.filter((group) => runs !== undefined && group.families.includes(runs))
    const draw = drawOfReading({ families: own.length > 0 ? own : families }, tool).map(
      ({ curve: _curve, ...more }) => more,
    )
    known.set(key, draw)
    return draw
  }
  return { id: row.id, file: row.file, layers, time, tools, drawOf }
}
