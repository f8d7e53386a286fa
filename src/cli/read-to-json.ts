import type { ReadPrintJson, ReadToolJson } from '../contract/index.ts'
import { unknownPace } from '../estimate/index.ts'
import { massOfLength } from '../filament/index.ts'
import type { PrintOfFile, ToolReading } from '../print/index.ts'
import { findingToJson, type NominalFilament, printTimeToJson } from '../service/index.ts'
import { measured, millimetres } from '../units/index.ts'
import type { Input } from './read-input.ts'

const toolToJson = (
  { tool, peak_mm, net_mm, startMacro_mm }: ToolReading,
  filament: NominalFilament | undefined,
): ReadToolJson => {
  const mass = filament && massOfLength(measured(millimetres(peak_mm)), filament.linearDensity)
  return {
    tool,
    peak_mm,
    net_mm,
    start_macro_mm: startMacro_mm,
    volume_mm3: filament ? (Math.PI / 4) * filament.diameter.value ** 2 * peak_mm : null,
    nominal_mass_g: mass ? { value: mass.value, u: mass.u } : null,
  }
}

/** Height of the highest layer, or null where there is none. */
export const topOf = (heights: Float64Array): number | null =>
  heights.length === 0 ? null : heights.reduce((top, height) => Math.max(top, height))

/** One print on the wire. */
export const readToJson = (
  { file, sha256, bytes, print }: Input,
  { name, reading }: PrintOfFile,
  filament: NominalFilament | undefined,
): ReadPrintJson => {
  const { layers, bead, counts } = reading
  const families = reading.families.map((group) => ({
    families: group.families,
    tools: group.tools.map((tool) => toolToJson(tool, filament)),
  }))
  return {
    file,
    sha256,
    bytes,
    container: print.container,
    member: name,
    code_bytes: reading.bytes,
    lines: reading.lines,
    tools: families[0]?.tools ?? [],
    families,
    layers: {
      count: layers.count,
      passes: layers.passes,
      spiral: layers.spiral,
      step_mm: layers.step_mm,
      first_height_mm: layers.height_mm[0] ?? null,
      top_mm: topOf(layers.height_mm),
    },
    stops: reading.stops.map(
      ({ kind, command, byte, line, layer, height_mm, draw_mm, time_s }) => ({
        kind,
        command,
        byte,
        line,
        layer,
        height_mm,
        draw_mm: [...draw_mm],
        planned_s: time_s ?? null,
      }),
    ),
    bead: bead && {
      feed_per_path: bead.feedPerPath,
      area_mm2: bead.area_mm2,
      width_mm: bead.width_mm,
      sampled_mm: bead.sampled_mm,
    },
    counts: {
      moves: counts.moves,
      extruding_moves: counts.extrudingMoves,
      arcs: counts.arcs,
      retractions: counts.retractions,
      firmware_retractions: counts.firmwareRetractions,
      tool_changes: counts.toolChanges,
      macro_calls: counts.macroCalls,
    },
    time: reading.time && printTimeToJson({ time: reading.time, pace: unknownPace(), layers }),
    findings: reading.findings.map(findingToJson),
  }
}
