import { useMutation } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { useApi } from '../api/use-api.ts'
import { Press } from '../field/press.tsx'
import { Failure } from '../look/said.tsx'
import { touchWords } from '../strings/touch-words.ts'
import { beginPageAnew, tellOtherPages } from './other-pages.ts'
import { logOutKey } from './query-keys.ts'

/** Ends the session; the pages of this browser then show nothing of the ledger. */
export function LogOutPress(): ReactNode {
  const api = useApi()
  const leaving = useMutation({
    mutationKey: logOutKey,
    mutationFn: api.logOut,
    onSuccess: (session) => {
      tellOtherPages(session)
      beginPageAnew()
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
      {leaving.error === null ? null : (
        <p role="alert">
          <Failure of={leaving.error} />
        </p>
      )}
    </>
  )
}
