import { useMutation, useQueryClient } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { useApi } from '../api/use-api.ts'
import { Press } from '../field/press.tsx'
import { sayFailure } from '../strings/say-failure.ts'
import { touchWords } from '../strings/touch-words.ts'
import { isOfLedger, sessionKey } from './query-keys.ts'

/** Ends the session; the page then shows nothing of the ledger. */
export function LogOutPress(): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const leaving = useMutation({
    mutationFn: api.logOut,
    onSuccess: (session) => {
      queries.removeQueries({ predicate: isOfLedger })
      queries.setQueryData(sessionKey, session)
    },
  })
  return (
    <>
      <Press
        onPress={() => {
          if (!leaving.isPending) leaving.mutate()
        }}
      >
        {touchWords.logOut}
      </Press>
      {leaving.error === null ? null : <p role="alert">{sayFailure(leaving.error)}</p>}
    </>
  )
}
