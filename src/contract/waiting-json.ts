import { z } from 'zod'
import { moment, printId, rowId, words } from './ledger-parts.ts'
import type { RowCommonJson } from './row-common-json.ts'

/** What a tool of a waiting print wants of its filament. */
export interface WaitingToolJson {
  readonly tool: number
  /** Id of the built-in table, or of a material row; any unless given. */
  readonly material?: string
  /** Names of the colours that will do; any unless given. */
  readonly colours?: readonly string[]
  readonly diameter_mm?: number
  /** The only reel that may feed it. */
  readonly reel?: string
}

/** Where a waiting print may be changed from one reel to the next. */
export interface WaitingChangesJson {
  readonly most?: number
  /** First and last of the layers after which it would not show; after any unless given. */
  readonly after_layers?: readonly (readonly [number, number])[]
}

/** A print of the slate. It waits while fewer copies are done than are wanted, and it is not off. */
export interface WaitingRowJson extends RowCommonJson {
  readonly kind: 'waiting'
  readonly name: string
  readonly print: string
  /** When it came to the slate. */
  readonly added_at: string
  readonly copies: number
  /** How many of them were printed; 0 unless given. */
  readonly done?: number
  readonly tools?: readonly WaitingToolJson[]
  /** Ids of the printers that may do it; any unless given. */
  readonly printers?: readonly string[]
  readonly due?: string
  readonly importance?: number
  /** No change in mid-print is allowed unless given. */
  readonly changes?: WaitingChangesJson
  /** Of one copy, as the person told it. */
  readonly duration_h?: number
  /** Taken off the slate. */
  readonly off?: true
}

/** One choice of a plan. */
export interface PlanChoiceJson {
  readonly waiting: string
  /** Number of the copy, from 1. */
  readonly copy: number
  readonly tool: number
  readonly reel: string
  readonly printer: string
  /** Layer after which the reel comes in; it begins the print unless given. */
  readonly after_layer?: number
}

/** The plan that was kept last; the next one differs from it as little as it can. */
export interface PlanRowJson extends Omit<RowCommonJson, 'id'> {
  readonly kind: 'plan'
  readonly id: 'plan'
  readonly choices: readonly PlanChoiceJson[]
}

const tool = z.int().nonnegative().max(99)
const layer = z.int().positive()
const copies = z.int().min(1).max(1000)

/** Schema of `WaitingToolJson`. */
export const waitingToolJson: z.ZodType<WaitingToolJson> = z
  .strictObject({
    tool,
    material: z
      .exactOptional(words)
      .describe('of the built-in table, or a material row’s id; any unless given'),
    colours: z
      .exactOptional(z.array(words).min(1).max(50))
      .describe('names of the colours that will do; any unless given'),
    diameter_mm: z.exactOptional(z.number().positive()).describe('nominal; 1.75 unless given'),
    reel: z.exactOptional(rowId).describe('the only reel that may feed it'),
  })
  .meta({ id: 'waiting_tool' })

/** Schema of `WaitingChangesJson`. */
export const waitingChangesJson: z.ZodType<WaitingChangesJson> = z
  .strictObject({
    most: z.exactOptional(z.int().min(1).max(9)).describe('changes of one tool; 1 unless given'),
    after_layers: z
      .exactOptional(
        z
          .array(
            z.tuple([layer, layer]).refine(([first, last]) => first <= last, 'last before first'),
          )
          .min(1)
          .max(200),
      )
      .describe('first and last layer after which it would not show; after any unless given'),
  })
  .meta({ id: 'waiting_changes' })

/** Schemas of what a person tells of a waiting print, beside its name and print. */
export const waitingCopies: z.ZodType<number> = copies.describe('wanted in all')
export const waitingImportance: z.ZodType<number> = z
  .int()
  .min(-9)
  .max(9)
  .describe('larger comes first; 0 unless given')
export const waitingDuration: z.ZodType<number> = z
  .number()
  .positive()
  .max(10_000)
  .describe('of one copy')

/** Schema of `WaitingRowJson`. */
export const waitingRowJson: z.ZodType<WaitingRowJson> & z.core.$ZodTypeDiscriminable = z
  .strictObject({
    kind: z.literal('waiting'),
    id: rowId,
    changed_at: moment.describe('the row changed last holds'),
    note: z.exactOptional(words),
    name: words,
    print: printId.describe('a print that was kept'),
    added_at: moment.describe('when it came to the slate'),
    copies: waitingCopies,
    tools: z.exactOptional(z.array(waitingToolJson).max(100)).describe('what each tool wants'),
    printers: z
      .exactOptional(z.array(rowId).min(1).max(100))
      .describe('printers that may do it; any unless given'),
    due: z.exactOptional(moment).describe('when it should be done'),
    importance: z.exactOptional(waitingImportance),
    changes: z
      .exactOptional(waitingChangesJson)
      .describe('planned changes of reels in mid-print; none unless given'),
    duration_h: z.exactOptional(waitingDuration),
    done: z
      .exactOptional(z.int().min(1).max(100_000))
      .describe('copies that were printed; 0 unless given'),
    off: z.exactOptional(z.literal(true)).describe('taken off the slate'),
  })
  .meta({ id: 'waiting', description: 'A print of the slate; it waits until all copies are done.' })

/** Schema of the choices of a plan. */
export const planChoices: z.ZodType<readonly PlanChoiceJson[]> = z
  .array(
    z
      .strictObject({
        waiting: rowId.describe('the waiting print'),
        copy: z.int().min(1).max(100_000).describe('which copy of it, from 1'),
        tool,
        reel: rowId,
        printer: rowId,
        after_layer: z
          .exactOptional(layer)
          .describe('layer after which the reel comes in; it begins the print unless given'),
      })
      .meta({ id: 'plan_choice' }),
  )
  .max(10_000)

/** Schema of `PlanRowJson`. */
export const planRowJson: z.ZodType<PlanRowJson> & z.core.$ZodTypeDiscriminable = z
  .strictObject({
    kind: z.literal('plan'),
    id: z.literal('plan'),
    changed_at: moment.describe('the row changed last holds'),
    note: z.exactOptional(words),
    choices: planChoices,
  })
  .meta({ id: 'plan', description: 'Which reel for which print, as it was kept last.' })
