import type { RowRequest } from '../../contract/index.ts'
import { rowWords } from '../strings/row-words.ts'
import { type RowField, valueOfField } from './row-field.ts'

type Row = Readonly<Record<string, unknown>>
type Texts = Readonly<Record<string, string>>

/** What a form tells of a row, and what is wrong with it, by the keys of its fields. */
export interface ToldOfRow {
  readonly told: RowRequest
  readonly refused: Texts
}

/**
 * What was changed in a form; what is not touched is not told.
 *
 * @param before - the row as it is
 * @param texts - by key, of the fields that were touched
 */
export const toldOfRow = (before: Row, fields: readonly RowField[], texts: Texts): ToldOfRow => {
  const told: Record<string, unknown> = {}
  const refused: Record<string, string> = {}
  for (const field of fields) {
    const { key, show, read, needed, within } = field
    const was = show(valueOfField(before, field))
    const text = texts[key] ?? was
    const isBlank = text.trim() === ''
    if (isBlank && needed === true) refused[key] = rowWords.needed
    if (text === was || (isBlank && was === '')) continue
    const outcome = isBlank ? null : read(text)
    if (outcome?.ok === false) refused[key] = outcome.refusal.message
    const value = outcome?.ok === true ? outcome.value : null
    if (within === undefined) told[key] = value
    else {
      // What was emptied a field ago is null, and not what it was before.
      const part = within in told ? told[within] : before[within]
      told[within] = withPart((part ?? {}) as Row, key, value)
    }
  }
  return { told, refused }
}

/** A part that has nothing left is not known any more. */
const withPart = (part: Row, key: string, value: unknown): Row | null => {
  const kept = Object.entries({ ...part, [key]: value }).filter(([, one]) => one !== null)
  return kept.length === 0 ? null : Object.fromEntries(kept)
}
