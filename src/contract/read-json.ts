import { z } from 'zod'
import { type PrintTimeJson, printTimeJson } from './clock-json.ts'
import { type ErrorPartJson, errorPartJson } from './error-json.ts'
import { type FindingJson, findingJson } from './finding-json.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'

/** What one tool draws. */
export interface ReadToolJson {
  readonly tool: number
  readonly peak_mm: number
  readonly net_mm: number
  readonly start_macro_mm: number
  readonly volume_mm3: number | null
  readonly nominal_mass_g: MeasuredJson | null
}

/** One print, as `read --json` tells it. */
export interface ReadPrintJson {
  readonly file: string
  readonly sha256: string
  readonly bytes: number
  readonly container: 'plain' | 'gzip' | 'zip'
  readonly member: string | null
  readonly code_bytes: number
  readonly lines: number
  readonly tools: readonly ReadToolJson[]
  readonly families: readonly {
    readonly families: readonly string[]
    readonly tools: readonly ReadToolJson[]
  }[]
  readonly layers: {
    readonly count: number
    readonly passes: number
    readonly spiral: boolean
    readonly step_mm: number
    readonly first_height_mm: number | null
    readonly top_mm: number | null
  }
  readonly stops: readonly {
    readonly kind: 'change' | 'pause' | 'end'
    readonly command: string
    readonly byte: number
    readonly line: number
    readonly layer: number
    readonly height_mm: number
    readonly draw_mm: readonly number[]
    readonly planned_s: number | null
  }[]
  readonly bead: {
    readonly feed_per_path: number
    readonly area_mm2: number
    readonly width_mm: number
    readonly sampled_mm: number
  } | null
  readonly counts: {
    readonly moves: number
    readonly extruding_moves: number
    readonly arcs: number
    readonly retractions: number
    readonly firmware_retractions: number
    readonly tool_changes: number
    readonly macro_calls: number
  }
  /** Null where it was not asked for. */
  readonly time: PrintTimeJson | null
  readonly findings: readonly FindingJson[]
}

/** What `read --json` writes: the print itself when there is one, a list when there are several. */
export type ReadJson =
  | ReadPrintJson
  | { readonly prints: readonly ReadPrintJson[]; readonly errors: readonly ErrorPartJson[] }

const count = z.int().nonnegative()
const length = z.number().nonnegative()

const tool: z.ZodType<ReadToolJson> = z
  .strictObject({
    tool: count.describe('number of the tool'),
    peak_mm: length.describe('what the reel must supply, filament past the feeder'),
    net_mm: z.number().describe('signed sum of all feeds'),
    start_macro_mm: length.describe('the part of the peak that comes before the first layer'),
    volume_mm3: length.nullable().describe('volume of the peak; null unless the material is told'),
    nominal_mass_g: measuredJson
      .nullable()
      .describe('mass of the peak at the nominal diameter; null unless the material is told'),
  })
  .meta({ id: 'tool_draw' })

/** Schema of `ReadPrintJson`. */
export const readPrintJson: z.ZodType<ReadPrintJson> = z
  .strictObject({
    file: z.string().describe('as given; `-` for standard input'),
    sha256: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .describe('of the bytes of the file'),
    bytes: count.describe('size of the file'),
    container: z.enum(['plain', 'gzip', 'zip']).describe('how the file is packed'),
    member: z.string().nullable().describe('name of the member in a zip'),
    code_bytes: count.describe('size of the machine code, unpacked'),
    lines: count.describe('lines of machine code'),
    tools: z
      .array(tool)
      .describe('draw of each tool that feeds, by the firmware family answered or the first group'),
    families: z
      .array(
        z
          .strictObject({
            families: z.array(z.string()).describe('firmware families that draw the same'),
            tools: z.array(tool).describe('what they draw'),
          })
          .meta({ id: 'family_group' }),
      )
      .describe('one entry for each way in which firmware reads the file; usually one'),
    layers: z
      .strictObject({
        count: count.describe('layers found from the moves'),
        passes: count.describe('how often the print starts again at the bed'),
        spiral: z.boolean().describe('most of the path climbs all the time'),
        step_mm: length.describe('usual step; 0 when unknown'),
        first_height_mm: z.number().nullable().describe('height of the first layer'),
        top_mm: z.number().nullable().describe('height of the highest layer'),
      })
      .describe('the layers of the print'),
    stops: z
      .array(
        z
          .strictObject({
            kind: z.enum(['change', 'pause', 'end']).describe('what the file stops for'),
            command: z.string().describe('as written'),
            byte: count.describe('where, in the machine code'),
            line: count.describe('1-based line'),
            layer: count.describe('layer in progress; 0 before the first'),
            height_mm: z.number().describe('height of the nozzle'),
            draw_mm: z.array(length).describe('draw reached, one entry a tool number'),
            planned_s: length.nullable().describe('planned time, waits not counted'),
          })
          .meta({ id: 'stop' }),
      )
      .describe('places where the file stops for a person'),
    bead: z
      .strictObject({
        feed_per_path: length.describe('feed over path, mm/mm'),
        area_mm2: length.describe('cross-section of the bead'),
        width_mm: length.describe('cross-section over the step; 0 when the step is unknown'),
        sampled_mm: length.describe('path it was taken from'),
      })
      .nullable()
      .describe('the median bead that the moves imply'),
    counts: z
      .strictObject({
        moves: count.describe('G0 to G3 and G5'),
        extruding_moves: count.describe('moves that travel and feed'),
        arcs: count.describe('G2 and G3'),
        retractions: count.describe('moves with a negative feed'),
        firmware_retractions: count.describe('G10 and its like'),
        tool_changes: count.describe('tool selections'),
        macro_calls: count.describe('commands that may run a hidden macro'),
      })
      .describe('what the file is made of'),
    time: printTimeJson.nullable().describe('how long it takes on a printer that nobody has timed'),
    findings: z.array(findingJson).describe('what a person should know of the file'),
  })
  .meta({ id: 'print' })

/** Schema of `ReadJson`. */
export const readJson: z.ZodType<ReadJson> = z.union([
  readPrintJson,
  z.strictObject({
    prints: z.array(readPrintJson).describe('several files, or several members of a zip'),
    errors: z.array(errorPartJson).describe('one for each file that could not be read'),
  }),
])
