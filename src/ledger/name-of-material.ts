import { findMaterial } from '../filament/index.ts'
import type { Catalogue } from './catalogue.ts'

/** What people call a material: its row's name, or the table's; else its id. */
export const nameOfMaterial = (id: string, own: Catalogue['materials']): string => {
  const found = findMaterial(id)
  return own.get(id)?.name ?? (found.ok ? found.value.name : id)
}
