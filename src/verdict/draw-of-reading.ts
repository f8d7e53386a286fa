import type { PrintReading } from '../print/index.ts'
import type { DrawAlternative } from './draw-alternative.ts'

/**
 * The draw of one tool as `judge` wants it: one alternative for each group of firmware families
 * that reads the file differently, labelled with the families. Each family counts the same, so a
 * group weighs as much as it has families: which of them runs a printer nobody has named is common
 * practice without a source.
 *
 * @param tool - as in `ToolReading`; a group under which it feeds nothing draws 0 mm
 */
export const drawOfReading = (
  { families: groups }: Pick<PrintReading, 'families'>,
  tool: number,
): readonly DrawAlternative[] =>
  groups.map(({ families, tools }) => {
    const named = { weight: families.length, label: families.join(', ') }
    const found = tools.find((reading) => reading.tool === tool)
    if (!found) return { ...named, peak_mm: 0 }
    const { peak_mm, startMacro_mm, curve, layerEnd_mm } = found
    return { ...named, peak_mm, startMacro_mm, curve, layerEnd_mm }
  })
