import type { EMode } from './feed-state.ts'
import type { Finding } from './finding.ts'
import type { FirmwareFamilyId } from './firmware-family.ts'
import type { LayerPlan } from './layer-plan.ts'
import type { MotionOptions } from './motion-limits.ts'
import type { CornerRule } from './motion-profile.ts'
import type { Wait } from './print-waits.ts'
import type { Silhouette } from './silhouette.ts'

/**
 * The draw of one tool along the print: parallel columns, one row a sample, in the order of the
 * print. `draw_mm` never falls. Rows stand at least every 0.1 % of the total (2 µm where the total is
 * smaller), or as close as single moves allow. What is drawn at each layer end stands in `layerEnd_mm`.
 */
export interface DrawCurve {
  /** Running maximum of the net feed, mm. */
  readonly draw_mm: Float64Array
  /** Height of the nozzle where the row was taken, mm. */
  readonly height_mm: Float64Array
  /** Layer in progress, 1-based; 0 before the first layer. */
  readonly layer: Int32Array
  /** Where the line begins that reached it, bytes from the start of the machine code. */
  readonly byte: Float64Array
  /** Planned time at which it was reached, waits not counted, s; where the time was asked for. */
  readonly time_s?: Float64Array
}

/** What one tool does, as one group of firmware families reads it. Lengths in mm of filament. */
export interface ToolReading {
  readonly tool: number
  /** Signed sum of all feeds. */
  readonly net_mm: number
  /** What the reel must supply: the highest the net feed ever stood, never below 0. */
  readonly peak_mm: number
  /** The part of the peak reached before the first layer. */
  readonly startMacro_mm: number
  /** Draw reached at the end of each layer, one entry a layer. */
  readonly layerEnd_mm: Float64Array
  readonly curve: DrawCurve
}

/** Firmware families under which this file draws the same, and what it draws. */
export interface FamilyReading {
  readonly families: readonly FirmwareFamilyId[]
  /** Ascending tool number; only tools that feed. */
  readonly tools: readonly ToolReading[]
}

/** The layers of the print, found from the moves alone. Columns have one entry a layer. */
export interface Layers {
  readonly count: number
  /** How often the print starts again at the bed: objects printed one after another. */
  readonly passes: number
  /** True when most of the extruding path climbs all the time. */
  readonly spiral: boolean
  /** Usual step from layer to layer, mm; 0 when unknown. */
  readonly step_mm: number
  /** Height at which the layer is drawn (for a spiral: where it begins), mm. */
  readonly height_mm: Float64Array
  /** Byte at which the layer's last line ends (where the next layer's first begins). */
  readonly endByte: Float64Array
  /** 1-based line of `endByte`. */
  readonly endLine: Float64Array
  /** Planned time at which the layer ends, s; where the time was asked for. */
  readonly endTime_s?: Float64Array
}

/** A place where the file stops for a person, or asks for another reel. */
export interface Stop {
  readonly kind: 'change' | 'pause' | 'end'
  /** The command as written, without a remark, at most 32 characters. */
  readonly command: string
  readonly byte: number
  readonly line: number
  /** Layer in progress, 1-based; 0 before the first. */
  readonly layer: number
  readonly height_mm: number
  /** Draw of each tool (index = tool) reached here, as the reference family reads it, mm. */
  readonly draw_mm: Float64Array
  /** Planned time, s; where the time was asked for. */
  readonly time_s?: number
}

/**
 * The time along the print, planned from its moves by the rules and limits of one printer. What the
 * printer waits for, and nobody can read off the file, stands in `waits` and is in no other figure.
 */
export interface PrintTime {
  /** Moves and dwells, s. */
  readonly total_s: number
  /** By whose rules it was planned, at the end of the file. */
  readonly family: FirmwareFamilyId
  readonly corner: CornerRule
  /** In the order of the print. */
  readonly waits: readonly Wait[]
}

/** The bead that the extruding moves imply, medians weighted by path length. */
export interface Bead {
  /** Feed per path length, mm/mm (mm³/mm when E is mm³). */
  readonly feedPerPath: number
  /** Cross-section the bead would have, mm². */
  readonly area_mm2: number
  /** Area over the layer step, mm; 0 when the step is unknown. */
  readonly width_mm: number
  /** Path length sampled, mm. */
  readonly sampled_mm: number
}

/** Everything the reader found in one machine-code file. */
export interface PrintReading {
  /** Bytes of machine code read (inflated size for a compressed file). */
  readonly bytes: number
  readonly lines: number
  /** Reference group first; more than one only when their peaks differ. */
  readonly families: readonly FamilyReading[]
  readonly layers: Layers
  readonly stops: readonly Stop[]
  readonly bead: Bead | null
  /** Null where nothing is drawn, or it was not asked for. */
  readonly silhouette: Silhouette | null
  /** Null where it was not asked for. */
  readonly time: PrintTime | null
  /** Only where one was asked for. */
  readonly plan?: LayerPlan
  readonly counts: Counts
  readonly findings: readonly Finding[]
}

export interface Counts {
  /** G0–G3 and G5 lines. */
  readonly moves: number
  /** Moves that travel in X or Y and feed. */
  readonly extrudingMoves: number
  readonly arcs: number
  /** Moves with a negative feed. */
  readonly retractions: number
  readonly firmwareRetractions: number
  readonly toolChanges: number
  /** Commands that may run a hidden macro. */
  readonly macroCalls: number
}

/** What the person answered, or the defaults. */
export interface ReadOptions {
  /** The family, once known; otherwise all are run side by side. */
  readonly firmware?: FirmwareFamilyId
  /** Unit of E as the file was made; `code` (default) believes the file's own M200. */
  readonly eUnit?: 'code' | 'mm' | 'mm3'
  /** How E words count, whatever the file says; `code` (default) believes its M82, M83, G90 and G91. */
  readonly eMode?: EMode
  /** Filament diameter in use, mm; default 1.75. */
  readonly diameter_mm?: number
  /** Diameter the file was made for, where it differs from the one in use, mm. */
  readonly madeFor_mm?: number
  /** Whether the print's silhouette is wanted; default false, for it takes time. */
  readonly silhouette?: boolean
  /** What is known of the printer's motion, where the time along the print is wanted. */
  readonly motion?: MotionOptions
  /** 1-based layer of which the plan is wanted, in place of a silhouette. */
  readonly planOf?: number
}
