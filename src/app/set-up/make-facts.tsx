import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import { useApi } from '../api/use-api.ts'
import { Failure } from '../look/said.tsx'
import { FactList } from '../putting-right/fact-list.tsx'
import { rowWords } from '../strings/row-words.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import styles from './set-up.module.css'

/** What was told of a make and of no reel, each with a way to put it right; asked for when it is opened. */
export function MakeFacts({
  make,
  unit,
}: {
  /** Its id. */
  readonly make: string
  readonly unit: MassUnit
}): ReactNode {
  const api = useApi()
  const [isOpen, setOpen] = useState(false)
  const { data, error } = useQuery({
    queryKey: ['make-facts', make],
    queryFn: () => api.makeFacts(make),
    enabled: isOpen,
  })
  return (
    <details className={styles['ownFacts']} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{rowWords.ownFacts}</summary>
      {error !== null ? (
        <p role="alert" className={styles['refused']}>
          {setUpWords.failed}: <Failure of={error} />
        </p>
      ) : data === undefined ? (
        <p role="status">{setUpWords.fetching}</p>
      ) : data.facts.length === 0 ? (
        <p className={styles['soft']}>{rowWords.noOwnFacts}</p>
      ) : (
        <FactList facts={data.facts} isOfReel={false} unit={unit} />
      )}
    </details>
  )
}
