import { z } from 'zod'
import { type ClockJson, clockJson } from './clock-json.ts'
import { moment, printId, words } from './ledger-parts.ts'
import {
  type WaitingChangesJson,
  type WaitingRowJson,
  type WaitingToolJson,
  waitingChangesJson,
  waitingCopies,
  waitingDuration,
  waitingImportance,
  waitingRowJson,
  waitingToolJson,
} from './waiting-json.ts'

/** A waiting print as it is listed. */
export interface WaitingTellJson {
  readonly row: WaitingRowJson
  /** Copies that wait. */
  readonly waits: number
  /** Name of the print's file; null where the print was never kept. */
  readonly file: string | null
  readonly layers: number | null
  /** One copy as its moves are planned, on the slowest of its printers; null where it is not known. */
  readonly takes: ClockJson | null
  readonly cut_short: readonly string[]
  readonly tools: readonly { readonly tool: number; readonly draw_mm: number }[]
}

/** What `slate list --json` writes, and `GET /api/slate`. */
export interface SlateJson {
  readonly waiting: readonly WaitingTellJson[]
}

/** Schema of `SlateJson`. */
export const slateJson: z.ZodType<SlateJson> = z
  .strictObject({
    waiting: z
      .array(
        z
          .strictObject({
            row: waitingRowJson.describe('as it stands in the ledger'),
            waits: z.int().nonnegative().describe('copies that wait'),
            file: z.string().nullable().describe('the print’s file; null where it was never kept'),
            layers: z.int().nonnegative().nullable(),
            takes: clockJson
              .nullable()
              .describe(
                'one copy as its moves are planned, on the slowest of its printers; null where it is not known',
              ),
            cut_short: z
              .array(z.string())
              .describe(
                'a sentence for each draw of it that ended before its end, since the last that was finished: when, on what and what was fed; its copy waits still',
              ),
            tools: z
              .array(
                z.strictObject({
                  tool: z.int().nonnegative(),
                  draw_mm: z
                    .number()
                    .nonnegative()
                    .describe('of one copy, as its file asks; the most, where firmware differs'),
                }),
              )
              .describe('tools that feed'),
          })
          .meta({ id: 'waiting_told' }),
      )
      .describe('the most urgent first'),
  })
  .meta({ id: 'slate' })

/** A print that comes to the slate. */
export interface WaitingRequest {
  readonly print: string
  readonly name?: string
  readonly copies?: number
  readonly tools?: readonly WaitingToolJson[]
  readonly printers?: readonly string[]
  readonly due?: string
  readonly importance?: number
  readonly changes?: WaitingChangesJson
  readonly duration_h?: number
  readonly note?: string
}

const names = z
  .array(words)
  .min(1)
  .max(100)
  .describe('names or ids of the printers that may do it; any unless given')
const tools = z
  .array(waitingToolJson)
  .max(100)
  .describe('what each tool wants; a material by name or id')

/** Schema of `WaitingRequest`. */
export const waitingRequest: z.ZodType<WaitingRequest> = z
  .strictObject({
    print: printId.describe('of a print that was kept'),
    name: z.exactOptional(words).describe('the file’s name unless given'),
    copies: z.exactOptional(waitingCopies).describe('1 unless given'),
    tools: z.exactOptional(tools),
    printers: z.exactOptional(names),
    due: z.exactOptional(moment).describe('when it should be done'),
    importance: z.exactOptional(waitingImportance),
    changes: z
      .exactOptional(waitingChangesJson)
      .describe('planned changes of reels in mid-print; none unless given'),
    duration_h: z.exactOptional(waitingDuration),
    note: z.exactOptional(words),
  })
  .meta({ id: 'waiting_request' })

/** What changes of a waiting print; null: it is not wanted any more. */
export interface WaitingChangeRequest {
  readonly name?: string
  readonly copies?: number
  readonly done?: number
  readonly tools?: readonly WaitingToolJson[] | null
  readonly printers?: readonly string[] | null
  readonly due?: string | null
  readonly importance?: number | null
  readonly changes?: WaitingChangesJson | null
  readonly duration_h?: number | null
  readonly note?: string | null
  readonly off?: true | null
}

const orNot = <T>(of: z.ZodType<T>, what: string): z.ZodType<T | null | undefined> =>
  z.exactOptional(of.nullable()).describe(`${what}; null: not any more`)

/** Schema of `WaitingChangeRequest`. */
export const waitingChangeRequest: z.ZodType<WaitingChangeRequest> = z
  .strictObject({
    name: z.exactOptional(words),
    copies: z.exactOptional(waitingCopies),
    done: z.exactOptional(z.int().min(0).max(100_000)).describe('how many of them are printed'),
    tools: orNot(tools, 'what each tool wants'),
    printers: orNot(names, 'printers that may do it'),
    due: orNot(moment, 'when it should be done'),
    importance: orNot(waitingImportance, 'larger comes first'),
    changes: orNot(waitingChangesJson, 'planned changes of reels'),
    duration_h: orNot(waitingDuration, 'of one copy'),
    note: orNot(words, 'a note'),
    off: z.exactOptional(z.literal(true).nullable()).describe('taken off; null: back on'),
  })
  .meta({ id: 'waiting_change_request' }) as z.ZodType<WaitingChangeRequest>
