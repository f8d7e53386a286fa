import { z } from 'zod'
import { rowId } from './ledger-parts.ts'

/** What a table of reels has in it, before anything is taken from it. */
export interface TableHeadJson {
  readonly columns: readonly {
    readonly heading: string
    readonly cells: readonly string[]
    readonly key: string | null
    readonly said: string
  }[]
  readonly rows: number
}

/** Schema of `TableHeadJson`. */
export const tableHeadJson: z.ZodType<TableHeadJson> = z.strictObject({
  columns: z
    .array(
      z.strictObject({
        heading: z.string(),
        cells: z.array(z.string()).describe('the first few below it'),
        key: z.string().nullable().describe('what it is taken for; null: left out'),
        said: z.string().describe('the same in a sentence'),
      }),
    )
    .describe('from the left'),
  rows: z.int().nonnegative().describe('rows below the headings'),
})

/** A table of which the head is wanted. */
export interface TableHeadRequest {
  readonly csv: string
  readonly delimiter?: string
}

const tableParts = {
  csv: z.string().describe('the table, headings first'),
  delimiter: z
    .exactOptional(z.string().min(1).max(4))
    .describe('what stands between cells; else seen'),
}

/** Schema of `TableHeadRequest`. */
export const tableHeadRequest: z.ZodType<TableHeadRequest> = z
  .strictObject(tableParts)
  .meta({ id: 'table_head_request' })

/** A table whose reels are to be taken over. */
export interface TableRequest extends TableHeadRequest {
  readonly columns?: Readonly<Record<string, number>>
  readonly scale?: string
  readonly currency?: string
  readonly unused?: boolean
  readonly alike?: boolean
  readonly skip_bad?: boolean
  readonly by?: string
  readonly dry_run?: boolean
}

/** Schema of `TableRequest`. */
export const tableRequest: z.ZodType<TableRequest> = z
  .strictObject({
    ...tableParts,
    columns: z
      .exactOptional(z.record(z.string().max(40), z.int().nonnegative()))
      .describe('what is in which column, counted from 0; else guessed from the headings'),
    scale: z.exactOptional(z.string()).describe('the scale of its weighings, by name or id'),
    currency: z.exactOptional(z.string()).describe('where its prices name none'),
    unused: z.exactOptional(z.boolean()).describe('nothing was fed from any of its reels'),
    alike: z
      .exactOptional(z.boolean())
      .describe('rows that look like reels already there are other reels'),
    skip_bad: z
      .exactOptional(z.boolean())
      .describe('take the rows that are good, and leave the others out'),
    by: z.exactOptional(rowId).describe('the person who says so'),
    dry_run: z.exactOptional(z.boolean()).describe('nothing is written'),
  })
  .meta({ id: 'table_request' })
