import { useQuery } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { useApi } from '../api/use-api.ts'
import type { ReadingAtHand } from '../check/use-reading.ts'
import { SheetFrame } from '../frame/sheet-frame.tsx'
import { Failure } from '../look/said.tsx'
import { frameWords } from '../strings/frame-words.ts'
import { slateWords } from '../strings/slate-words.ts'
import { AddPrint } from './add-print.tsx'
import { MatchPart } from './match-part.tsx'
import styles from './slate.module.css'
import { WaitingList } from './waiting-list.tsx'

/** The prints that wait, and which reel is to do which of them. */
export function SlateSheet({ at }: { readonly at: ReadingAtHand }): ReactNode {
  const api = useApi()
  const { data, error } = useQuery({ queryKey: ['slate'], queryFn: () => api.slate() })
  const waiting = data?.waiting.filter(({ waits }) => waits > 0) ?? []
  return (
    <SheetFrame title={frameWords.slate} lines={[[slateWords.waiting, String(waiting.length)]]}>
      <h1 className="spoken">{frameWords.slate}</h1>
      {error === null ? null : (
        <p role="alert">
          <Failure of={error} />
        </p>
      )}
      {data !== undefined && waiting.length === 0 ? (
        <>
          <h2 className={styles['headline']}>{slateWords.none}</h2>
          <p>{slateWords.noneHint}</p>
        </>
      ) : null}
      <WaitingList waiting={waiting} />
      <AddPrint at={at} />
      {waiting.length === 0 ? null : <MatchPart waiting={waiting} />}
    </SheetFrame>
  )
}
