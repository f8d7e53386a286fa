import type { CatalogueRowJson } from '../contract/index.ts'
import { findMaterial } from '../filament/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { findRow, rowsOf } from './find-row.ts'

/**
 * The material a person means: of this shelf's own, by name or id, or of the built-in table.
 *
 * @returns what a make's row keeps of it, or `material_unknown`
 */
export const findMaterialId = (
  rows: readonly CatalogueRowJson[],
  typed: string,
): Outcome<string> => {
  if (rowsOf(rows, 'material').length > 0) {
    const own = findRow(rows, 'material', typed)
    if (own.ok) return accept(own.value.id)
  }
  const found = findMaterial(typed)
  return found.ok ? accept(found.value.id) : found
}
