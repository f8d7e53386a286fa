import type { ReactNode } from 'react'
import type { Silhouette } from '../../print/index.ts'
import { PrintSilhouette } from '../drawing/print-silhouette.tsx'
import { useNarrow } from '../look/use-narrow.ts'
import styles from './check.module.css'

/** The print that was read, drawn while it is not known yet which reel could do it. */
export function Unanswered({
  silhouette,
  awaits,
}: {
  readonly silhouette: Silhouette | null
  /** What the answer waits for; null where it will not come. */
  readonly awaits: string | null
}): ReactNode {
  const narrow = useNarrow()
  return (
    <div className={styles['answer']}>
      <div>
        {awaits === null ? null : (
          <p role="status" className={styles['awaited']}>
            {awaits}
          </p>
        )}
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
