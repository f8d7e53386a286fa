import { useQuery } from '@tanstack/react-query'
import type { CatalogueRowJson } from '../../contract/index.ts'
import { materials } from '../../filament/index.ts'
import { useApi } from '../api/use-api.ts'

/** What materials are called, by their ids: those of the person's own, and those of the table. */
export const materialNamesIn = (rows: readonly CatalogueRowJson[]): ((id: string) => string) => {
  const names = new Map(
    [...materials, ...rows.filter((row) => row.kind === 'material')].map(({ id, name }) => [
      id,
      name,
    ]),
  )
  return (id) => names.get(id) ?? id
}

/** The same of this ledger. */
export function useMaterialNames(): (id: string) => string {
  const api = useApi()
  const { data } = useQuery({ queryKey: ['rows', 'material'], queryFn: () => api.rows('material') })
  return materialNamesIn(data?.rows ?? [])
}
