import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { RecordedJson } from '../../contract/index.ts'
import { newFactId } from '../api/new-fact-id.ts'

/** Something that is being written down once, however often it is pressed. */
export interface Telling {
  /** What the ledger answered; null until then. */
  readonly answer: RecordedJson | null
  readonly error: Error | null
  readonly isBusy: boolean
  /** Asks with the id of this telling: the same one again is counted once. */
  readonly tell: (ask: (id: string) => Promise<RecordedJson>) => void
  /** Begins the next, with an id of its own. */
  readonly again: () => void
}

/** What is told of the bench; every sheet is asked anew once it is written down. */
export function useTelling(): Telling {
  const queries = useQueryClient()
  const [id, setId] = useState(newFactId)
  const telling = useMutation({
    mutationFn: (ask: (id: string) => Promise<RecordedJson>) => ask(id),
    onSuccess: async ({ recorded }) => {
      if (recorded) await queries.invalidateQueries({ refetchType: 'active' })
    },
  })
  return {
    answer: telling.data ?? null,
    error: telling.error,
    isBusy: telling.isPending,
    tell: (ask) => {
      if (!telling.isPending) telling.mutate(ask)
    },
    again: () => {
      telling.reset()
      setId(newFactId())
    },
  }
}
