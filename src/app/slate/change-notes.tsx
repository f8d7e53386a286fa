import type { ReactNode } from 'react'
import type { MatchCopyJson } from '../../contract/index.ts'
import { Said } from '../look/said.tsx'
import { planWords } from '../strings/plan-words.ts'
import { CopyWithStops } from './copy-with-stops.tsx'
import type { MarkOf } from './plan-picture.ts'
import styles from './slate.module.css'

/** What to write on the notes by the printers, of prints that change reels on the way: with its cautions. */
export function ChangeNotes({
  copies,
  markOf,
}: {
  readonly copies: readonly MatchCopyJson[]
  readonly markOf: MarkOf
}): ReactNode {
  const changing = copies.filter(({ changes }) => changes.length > 0)
  if (changing.length === 0) return null
  return (
    <section className={styles['part']} aria-label={planWords.notes}>
      <h2>{planWords.notes}</h2>
      {changing.map((copy) => (
        <div key={markOf(copy)} className={styles['note']}>
          <p>
            <b className={styles['mark']}>{markOf(copy)}</b>{' '}
            <b className={styles['what']}>{copy.name}</b>{' '}
            <span className={styles['soft']}>{copy.printer_name}</span>
          </p>
          {(copy.note ?? '').split('\n').map((line) => (
            <p key={line}>
              <Said>{line}</Said>
            </p>
          ))}
          <CopyWithStops copy={copy} />
        </div>
      ))}
    </section>
  )
}
