import { useQuery } from '@tanstack/react-query'
import { useApi } from '../api/use-api.ts'

/** What a printer is called; its id where the ledger does not tell. */
export function usePrinterName(id: string): string {
  const api = useApi()
  const { data } = useQuery({ queryKey: ['rows', 'printer'], queryFn: () => api.rows('printer') })
  const row = data?.rows.find((one) => one.id === id)
  return row?.kind === 'printer' ? row.name : id
}
