import { z } from 'zod'
import { type AssumptionJson, assumptionJson } from './assumption-json.ts'
import { type ClockJson, clockJson, type PrintTimeJson, printTimeJson } from './clock-json.ts'
import { type FindingJson, findingJson } from './finding-json.ts'
import { type MeasuredJson, measuredJson } from './measured-json.ts'
import { type ReelHeadJson, reelHeadJson } from './reel-head-json.ts'
import { type ReelWorkingJson, reelWorkingJson } from './reel-working-json.ts'
import { type ReelWoundJson, reelWoundJson } from './reel-wound-json.ts'

/** A place in the print where the reel ends. */
export interface RunDryPointJson {
  readonly draw_mm: number
  readonly share: number
  readonly layer: number | null
  readonly height_mm: number | null
  readonly byte: number | null
}

/** What holds under one way to read the file. */
export interface AlternativeJson {
  readonly families: string | null
  readonly weight: number
  readonly verdict: 'enough' | 'close' | 'short'
  readonly chance: number
  readonly needed_mm: number
  readonly needed_g: MeasuredJson
  readonly margin_g: MeasuredJson
}

/** A layer end at which a reel can be changed, and when it comes. */
export interface EarlierChangeJson {
  readonly layer: number
  readonly height_mm: number | null
  readonly clock: ClockJson
}

/** The answer for one tool and its reel. */
export interface ToolCheckJson {
  readonly tool: number
  readonly verdict: 'enough' | 'close' | 'short'
  readonly chance: number
  readonly needed_g: MeasuredJson
  readonly net_g: MeasuredJson
  readonly margin_g: MeasuredJson
  readonly left_over_g: MeasuredJson
  readonly needed_mm: MeasuredJson
  readonly available_mm: { readonly value: number | null; readonly u: number | null }
  readonly linear_density_g_per_m: MeasuredJson
  readonly tare_g: MeasuredJson
  readonly run_dry: {
    readonly early: RunDryPointJson | null
    readonly likely: RunDryPointJson | null
    readonly late: RunDryPointJson | null
    /** Null where it lasts, or where the print's times are not known. */
    readonly clock: ClockJson | null
  }
  readonly change_before: {
    readonly layer: number
    readonly height_mm: number | null
    readonly draw_mm: number
    readonly byte: number | null
    readonly clock: ClockJson | null
    /** None where times are not known. */
    readonly earlier: readonly EarlierChangeJson[]
  } | null
  readonly next: readonly {
    readonly id: string
    readonly instruction: string
    readonly effort_min: number
    readonly margin_u_g: number
    readonly settles: number
  }[]
  readonly alternatives: readonly AlternativeJson[]
  readonly used: readonly {
    readonly id: string
    readonly what: string
    readonly weight_on_net: number
    readonly off: number
    readonly surprising: boolean
  }[]
  readonly assumed: readonly AssumptionJson[]
  readonly notices: readonly { readonly code: string; readonly message: string }[]
  /** Only where a reel of the ledger was named. */
  readonly reel?: ReelHeadJson
  /** Only where a reel of the ledger was named. */
  readonly working?: ReelWorkingJson
  /** Only where a reel of the ledger was named. */
  readonly wound?: ReelWoundJson
}

/** The print that was checked. */
export interface CheckedPrintJson {
  readonly file: string
  readonly sha256: string
  readonly bytes: number
  /** Null for a print that was kept: how its file was packed is not. */
  readonly container: 'plain' | 'gzip' | 'zip' | null
  readonly member: string | null
  /** Null for a print that was kept. */
  readonly lines: number | null
  readonly layers: number
  readonly top_mm: number | null
  readonly stretch: number | null
  /** Null for a print that was kept before its planned changes were. */
  readonly stretches: number | null
}

/** The printer that an answer is reckoned for. */
export interface PrinterJudgedJson {
  readonly id: string
  readonly name: string
  readonly stands_in: boolean
}

/** What `check --json` writes. The figures are those of the tool most likely to run dry. */
export interface CheckJson extends ToolCheckJson {
  readonly confidence: number
  readonly tools: readonly ToolCheckJson[]
  /** Null where no printer of the ledger is in question. */
  readonly printer: PrinterJudgedJson | null
  readonly print: CheckedPrintJson | null
  /** Null where it is not known. */
  readonly time: PrintTimeJson | null
  readonly findings: readonly FindingJson[]
}

const verdict = z.enum(['enough', 'close', 'short'])
const chance = z.number().min(0).max(1)
const length = z.number().nonnegative()

const point = z
  .strictObject({
    draw_mm: length.describe('filament fed of this print when the reel ends'),
    share: chance.describe('share of the print’s draw'),
    layer: z.int().nonnegative().nullable().describe('layer in progress; 0 before the first'),
    height_mm: z.number().nullable().describe('height of the nozzle'),
    byte: z.number().nonnegative().nullable().describe('place in the machine code'),
  })
  .meta({ id: 'run_dry_point' })

const toolParts = {
  tool: z.int().nonnegative().describe('number of the tool'),
  verdict: verdict.describe('`enough`, `close` or `short`'),
  chance: chance.describe('chance that the reel lasts'),
  needed_g: measuredJson.describe('what the print takes off this reel'),
  net_g: measuredJson.describe('filament on the reel'),
  margin_g: measuredJson.describe('net less needed less the tail that can not be printed'),
  left_over_g: measuredJson.describe('on the reel after the print; negative is what is missing'),
  needed_mm: measuredJson.describe(
    'asked by the file; u is the spread between readings of the file',
  ),
  available_mm: z
    .strictObject({
      value: length.nullable().describe('null when there is no limit to be told'),
      u: length.nullable(),
    })
    .describe('what can still be asked of this reel'),
  linear_density_g_per_m: measuredJson.describe('mass of a metre of this filament'),
  tare_g: measuredJson.describe('mass of the carrier'),
  run_dry: z
    .strictObject({
      early: point.nullable().describe('it ends before this with a chance of 5 %'),
      likely: point.nullable().describe('as likely before as after'),
      late: point.nullable().describe('it ends before this with a chance of 95 %'),
      clock: clockJson
        .nullable()
        .describe('when, with the doubts about place and time; null where times are not known'),
    })
    .describe('where the reel ends; null where it lasts past the end of the print'),
  change_before: z
    .strictObject({
      layer: z.int().positive().describe('the last layer that is still finished'),
      height_mm: z.number().nullable().describe('its height'),
      draw_mm: length.describe('filament fed when it ends'),
      byte: z.number().nonnegative().nullable().describe('where the next layer begins'),
      clock: clockJson.nullable().describe('when it ends; null where times are not known'),
      earlier: z
        .array(
          z.strictObject({
            layer: z.int().positive(),
            height_mm: z.number().nullable(),
            clock: clockJson,
          }),
        )
        .describe(
          'layer ends before it at which a change is as safe, 40 at most, ascending, from half an hour after the reel came on; as before going to bed',
        ),
    })
    .nullable()
    .describe('last layer end before which changing reels is still safe'),
  next: z
    .array(
      z.strictObject({
        id: z.string().describe('stable'),
        instruction: z.string().describe('what to do'),
        effort_min: z.number().nonnegative().describe('hands-on time, minutes'),
        margin_u_g: z.number().nonnegative().describe('uncertainty of the margin after it'),
        settles: chance.describe('chance that the call for the print is settled then'),
      }),
    )
    .describe(
      'measurements on this reel or printer that could settle the call for the print, best first',
    ),
  alternatives: z
    .array(
      z.strictObject({
        families: z.string().nullable().describe('firmware families that read the file so'),
        weight: chance.describe('how likely this reading is'),
        verdict: verdict.describe('the verdict under it'),
        chance: chance.describe('the chance under it'),
        needed_mm: length.describe('asked by the file under it'),
        needed_g: measuredJson.describe('needed under it'),
        margin_g: measuredJson.describe('margin under it'),
      }),
    )
    .describe('empty unless firmware families read the file differently'),
  used: z
    .array(
      z.strictObject({
        id: z.string().describe('stable'),
        what: z.string().describe('what was observed'),
        weight_on_net: chance.describe('share of the net’s variance that it takes away'),
        off: z.number().describe('how far off the rest it lies, in standard deviations'),
        surprising: z.boolean().describe('beyond three'),
      }),
    )
    .describe('what was told of the reel'),
  assumed: z.array(assumptionJson).describe('what stands in for what nobody measured'),
  notices: z
    .array(z.strictObject({ code: z.string(), message: z.string() }))
    .describe('what to know before trusting the figures'),
  reel: z.exactOptional(reelHeadJson).describe('only where a reel of the ledger was named'),
  working: z
    .exactOptional(reelWorkingJson)
    .describe('only where a reel of the ledger was named: what its figures rest on'),
  wound: z
    .exactOptional(reelWoundJson)
    .describe('only where a reel of the ledger was named: what its drawing to scale needs'),
}

const toolCheck: z.ZodType<ToolCheckJson> = z.strictObject(toolParts).meta({ id: 'tool_check' })

/** Schema of `PrinterJudgedJson`. */
export const printerJudged: z.ZodType<PrinterJudgedJson> = z.strictObject({
  id: z.string().describe('of the printer'),
  name: z.string().describe('its name'),
  stands_in: z
    .boolean()
    .describe('none was named: of several in use it is the one that would take most'),
})

/** Schema of `CheckedPrintJson`. */
export const checkedPrint: z.ZodType<CheckedPrintJson> = z.strictObject({
  file: z.string().describe('as given; `-` for standard input'),
  sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .describe('of the bytes of the file'),
  bytes: z.int().nonnegative().describe('size of the file'),
  container: z
    .enum(['plain', 'gzip', 'zip'])
    .nullable()
    .describe('how the file is packed; null for a print that was kept'),
  member: z.string().nullable().describe('name of the member in a zip'),
  lines: z
    .int()
    .nonnegative()
    .nullable()
    .describe('lines of machine code; null for a print that was kept'),
  layers: z.int().nonnegative().describe('layers found'),
  top_mm: z.number().nullable().describe('height of the highest layer'),
  stretch: z.int().positive().nullable().describe('the stretch judged; null for the whole'),
  stretches: z
    .int()
    .positive()
    .nullable()
    .describe(
      'one more than the reel changes planned in the file; null for a print kept before they were',
    ),
})

/** Schema of `CheckJson`. */
export const checkJson: z.ZodType<CheckJson> = z.strictObject({
  ...toolParts,
  verdict: verdict.describe('of the whole print'),
  chance: chance.describe('that every reel lasts'),
  confidence: chance.describe('from which a call is made'),
  tool: toolParts.tool.describe('the tool most likely to run dry, whose figures follow'),
  tools: z.array(toolCheck).describe('each tool by itself, ascending'),
  printer: printerJudged
    .nullable()
    .describe(
      'whose prints have taught what it feeds; null where no ledger is asked or it has none',
    ),
  print: checkedPrint.nullable().describe('the print; null when a length or mass stands in for it'),
  time: printTimeJson.nullable().describe('how long the print takes; null where it is not known'),
  findings: z.array(findingJson).describe('what a person should know of the file'),
})
