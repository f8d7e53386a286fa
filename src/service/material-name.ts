import type { CatalogueRowJson } from '../contract/index.ts'
import { materials } from '../filament/index.ts'
import { rowsOf } from './find-row.ts'

/** What people call a material that a row keeps by its id. */
export const materialName = (rows: readonly CatalogueRowJson[], id: string): string =>
  rowsOf(rows, 'material').find((row) => row.id === id)?.name ??
  materials.find((material) => material.id === id)?.name ??
  id
