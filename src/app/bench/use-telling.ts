import { useState } from 'react'
import type { RecordedJson } from '../../contract/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { usePosting } from '../recorded/use-posting.ts'

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

/** What is told of the bench, each time with one id of its own. */
export function useTelling(): Telling {
  const [id, setId] = useState(newFactId)
  const { answer, failure, isBusy, post, forget } = usePosting(
    (ask: (id: string) => Promise<RecordedJson>) => ask(id),
  )
  return {
    answer,
    error: failure,
    isBusy,
    tell: post,
    again: () => {
      forget()
      setId(newFactId())
    },
  }
}
