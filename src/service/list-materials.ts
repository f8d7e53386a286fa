import type { CatalogueRowJson, MaterialsJson } from '../contract/index.ts'
import { materials } from '../filament/index.ts'
import { rowsOf } from './find-row.ts'

/** Every material that a make may name: this shelf's own, then the built-in table. */
export const listMaterials = (rows: readonly CatalogueRowJson[]): MaterialsJson => ({
  materials: [
    ...rowsOf(rows, 'material').map(({ id, name }) => ({ id, name, own: true })),
    ...materials.map(({ id, name }) => ({ id, name, own: false })),
  ],
})
