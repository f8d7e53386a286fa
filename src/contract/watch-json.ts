import { z } from 'zod'
import { type CheckedPrintJson, type CheckJson, checkedPrint, checkJson } from './check-json.ts'
import { type ErrorPartJson, errorPartJson } from './error-json.ts'
import { moment } from './ledger-parts.ts'
import { type ShelfCheckJson, shelfCheckJson } from './shelf-check-json.ts'

interface Told<Event extends string> {
  readonly event: Event
  readonly at: string
}

/** A line of `watch --json`. */
export type WatchJson =
  | (Told<'watching'> & { readonly folder: string; readonly subfolders: boolean })
  | (Told<'shelf'> & { readonly revision: number | null; readonly reels: number })
  | (Told<'judged'> & {
      readonly why: 'read' | 'shelf'
      readonly print: CheckedPrintJson
      readonly tools: readonly { readonly tool: number; readonly peak_mm: number }[]
      readonly kept: boolean
      readonly check: CheckJson | ShelfCheckJson | null
    })
  | (Told<'unread'> & { readonly again: boolean; readonly error: ErrorPartJson })
  | (Told<'gone'> & { readonly file: string })
  | (Told<'trouble'> & { readonly error: ErrorPartJson })
  | (Told<'mended'> & { readonly what: 'folder' | 'ledger' })
  | (Told<'ended'> & { readonly prints: number })

const at = moment.describe('when')
const told = <Event extends string>(event: Event) => ({ event: z.literal(event), at })

/** Schemas of the lines of `watch --json`, by their `event`. */
export const watchEvents: { readonly [Event in WatchJson['event']]: z.ZodType } = {
  watching: z.strictObject({
    ...told('watching'),
    folder: z.string().describe('as given'),
    subfolders: z.boolean().describe('whether the folders in it are followed, too'),
  }),
  shelf: z.strictObject({
    ...told('shelf'),
    revision: z.int().nullable().describe('of the ledger; null while there is none'),
    reels: z.int().nonnegative().describe('how many are in use'),
  }),
  judged: z.strictObject({
    ...told('judged'),
    why: z
      .enum(['read', 'shelf'])
      .describe('`read`: the file is new or another than before; `shelf`: the shelf is'),
    print: checkedPrint.describe('the print'),
    tools: z
      .array(
        z.strictObject({
          tool: z.int().nonnegative().describe('number of the tool'),
          peak_mm: z.number().nonnegative().describe('what the reel must supply'),
        }),
      )
      .describe('what it draws, as the printer’s firmware reads it'),
    kept: z.boolean().describe('whether the ledger keeps this print'),
    check: z
      .union([checkJson, shelfCheckJson])
      .nullable()
      .describe(
        'as `check --json` writes it of the reel that is named; else of the whole shelf, the first five reels for each tool, and `two_reels` null, for it looks for no two; null while no reel is in use, or where the print has tools without a reel',
      ),
  }),
  unread: z.strictObject({
    ...told('unread'),
    again: z.boolean().describe('true where it may not be whole yet and is read again by itself'),
    error: errorPartJson.describe('why it could not be read'),
  }),
  gone: z.strictObject({ ...told('gone'), file: z.string().describe('is no longer there') }),
  trouble: z.strictObject({
    ...told('trouble'),
    error: errorPartJson.describe('why the folder or the ledger can not be read for the moment'),
  }),
  mended: z.strictObject({
    ...told('mended'),
    what: z.enum(['folder', 'ledger']).describe('what can be read again'),
  }),
  ended: z.strictObject({
    ...told('ended'),
    prints: z.int().nonnegative().describe('how many were followed in the end'),
  }),
}

/** Schema of `WatchJson`. */
export const watchJson: z.ZodType<WatchJson> = z.union(
  Object.values(watchEvents),
) as unknown as z.ZodType<WatchJson>
