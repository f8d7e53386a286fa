/** What every catalogue row has; the row that was changed last holds. */
export interface RowCommonJson {
  readonly id: string
  readonly changed_at: string
  readonly note?: string
}
