import { firmwareFamilies, type PrintReading } from '../print/index.ts'
import { type DrawAlternative, drawOfReading } from '../verdict/index.ts'

/** What one tool of a print draws, in each way to read it. */
export interface ToolDrawn {
  readonly tool: number
  readonly draw: readonly DrawAlternative[]
}

/**
 * The tools that a print feeds from, ascending; T0 where it feeds nothing.
 *
 * @param firmware - family of the printer; without it, or where the print was not read by it, all
 *   ways to read the print
 */
export const toolsDrawn = (
  { families }: Pick<PrintReading, 'families'>,
  firmware: string | undefined,
): readonly ToolDrawn[] => {
  const runs = firmwareFamilies.find(({ id }) => id === firmware)?.id
  const chosen = families.filter((group) => runs !== undefined && group.families.includes(runs))
  const reading = { families: chosen.length > 0 ? chosen : families }
  const fed = reading.families.flatMap(({ tools }) => tools.filter(({ peak_mm }) => peak_mm > 0))
  const numbers = [...new Set(fed.map(({ tool }) => tool))].toSorted((a, b) => a - b)
  return (numbers.length === 0 ? [0] : numbers).map((tool) => ({
    tool,
    draw: drawOfReading(reading, tool),
  }))
}
