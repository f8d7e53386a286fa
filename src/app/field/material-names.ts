import { useQuery } from '@tanstack/react-query'
import type { CatalogueRowJson } from '../../contract/index.ts'
import { catalogueOf, nameOfMaterial } from '../../ledger/index.ts'
import { useApi } from '../api/use-api.ts'

/** What materials are called, by their ids: those of the person's own, and those of the table. */
export const materialNamesIn = (rows: readonly CatalogueRowJson[]): ((id: string) => string) => {
  const { materials } = catalogueOf(rows)
  return (id) => nameOfMaterial(id, materials)
}

/** The same of this ledger. */
export function useMaterialNames(): (id: string) => string {
  const api = useApi()
  const { data } = useQuery({ queryKey: ['rows', 'material'], queryFn: () => api.rows('material') })
  return materialNamesIn(data?.rows ?? [])
}
