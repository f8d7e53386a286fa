import { useQueryClient } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { useLocation } from 'wouter'
import { useApi } from '../api/use-api.ts'
import { useSending } from '../api/use-sending.ts'
import { Press } from '../field/press.tsx'
import { Failure } from '../look/said.tsx'
import { ledgerShown } from '../offline/ledger-shown.ts'
import { endHereOf } from '../running/running-here.ts'
import { touchWords } from '../strings/touch-words.ts'
import { sessionKey } from './query-keys.ts'
import { useTouch } from './touch.tsx'

/** Loads the demo shelf, or removes it. */
export function DemoPress(): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const [, go] = useLocation()
  const isDemo = useTouch().session?.demo === true
  const exchange = useSending({
    mutationFn: isDemo ? api.removeDemo : api.loadDemo,
    onMutate: () => ledgerShown(),
    onSuccess: (session, _, before) => {
      if (isDemo) endHereOf(before)
      queries.setQueryData(sessionKey, session)
      // A reel of the one is none of the other.
      go('/shelf')
      // The press may be gone with its sheet; who goes by keys goes on at the next.
      setTimeout(() => document.getElementById('drawn')?.focus())
    },
  })
  return (
    <>
      <Press onPress={() => exchange.mutate()}>
        {isDemo ? touchWords.removeDemo : touchWords.loadDemo}
      </Press>
      {exchange.error === null ? null : (
        <p role="alert">
          <Failure of={exchange.error} />
        </p>
      )}
    </>
  )
}
