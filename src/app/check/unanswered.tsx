import type { ReactNode } from 'react'
import type { Silhouette } from '../../print/index.ts'
import { PrintSilhouette } from '../drawing/print-silhouette.tsx'
import { useNarrow } from '../look/use-narrow.ts'
import { checkWords } from '../strings/check-words.ts'
import styles from './check.module.css'

/** The print that was read, drawn while it is not known yet which reel could do it. */
export function Unanswered({
  silhouette,
  isAsked,
}: {
  readonly silhouette: Silhouette | null
  /** The file leaves something open that is to be answered first. */
  readonly isAsked: boolean
}): ReactNode {
  const narrow = useNarrow()
  return (
    <div className={styles['answer']}>
      <div>
        <p role="status" className={styles['awaited']}>
          {isAsked ? checkWords.answerFirst : checkWords.reckoning}
        </p>
        {silhouette === null ? null : (
          <div className={styles['pictures']}>
            <figure className={styles['silhouette']}>
              <PrintSilhouette silhouette={silhouette} fills={[]} height={narrow ? 240 : 300} />
            </figure>
          </div>
        )}
      </div>
    </div>
  )
}
