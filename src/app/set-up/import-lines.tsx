import { useQuery, useQueryClient } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { useApi } from '../api/use-api.ts'
import { useSending } from '../api/use-sending.ts'
import { Press } from '../field/press.tsx'
import { Failure } from '../look/said.tsx'
import { importWords } from '../strings/import-words.ts'
import type { ChosenFile } from './import-sheet.tsx'
import styles from './set-up.module.css'

/** Lines of another ledger: tried first, then taken over, all or none. */
export function ImportLines({
  file: { name, text, at },
}: {
  readonly file: ChosenFile
}): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const lines = (): Blob => new Blob([text])
  const tried = useQuery({
    queryKey: ['import', at, name],
    queryFn: () => api.importLedger(lines(), true),
    staleTime: Number.POSITIVE_INFINITY,
    gcTime: 0,
  })
  const taking = useSending({
    mutationFn: () => api.importLedger(lines(), false),
    onSuccess: () =>
      queries.invalidateQueries({ predicate: ({ queryKey }) => queryKey[0] !== 'import' }),
  })
  const error = tried.error ?? taking.error
  if (error !== null) {
    return (
      <p role="alert" className={styles['refused']}>
        {importWords.notRead(name)}: <Failure of={error} />
      </p>
    )
  }
  if (taking.data !== undefined) {
    return <p role="status">{importWords.taken(name, taking.data.written)}</p>
  }
  if (tried.data === undefined) return <p role="status">{importWords.trying(name)}</p>
  const { written, same, older } = tried.data
  return (
    <div className={styles['ask']}>
      <p role="status">
        {written === 0
          ? importWords.nothingNew(name)
          : importWords.wouldCome(name, written, same, older)}
      </p>
      {written === 0 ? null : (
        <p className={styles['presses']}>
          <Press main isDisabled={taking.isPending} onPress={() => taking.mutate()}>
            {importWords.takeOver}
          </Press>
        </p>
      )}
    </div>
  )
}
