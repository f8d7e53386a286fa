import type { ReactNode } from 'react'
import type { RecordedJson } from '../../contract/index.ts'
import { MassFigure } from '../figure/mass-figure.tsx'
import { recordWords } from '../strings/record-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import styles from './recorded.module.css'
import { RecordedNotes } from './recorded-notes.tsx'

/** What became of the reels that something was written down of: before and now. */
export const WhatBecame = ({
  answer,
  unit,
}: {
  readonly answer: Pick<RecordedJson, 'reels' | 'notes' | 'contradicted' | 'facts'>
  readonly unit: MassUnit
}): ReactNode => (
  <div role="status" className={styles['became']}>
    {answer.reels.map((one) => (
      <p key={one.reel} className={styles['change']}>
        <b>{recordWords.reelIs(one)}</b>
        {one.before === null ? null : (
          <>
            <span className="spoken">{recordWords.from}</span>
            <MassFigure mass={one.before.net_g} unit={unit} />
            <span aria-hidden="true">→</span>
          </>
        )}
        <span className="spoken">{recordWords.to}</span>
        {one.now === null ? (
          recordWords.unreckoned
        ) : (
          <strong>
            <MassFigure mass={one.now.net_g} unit={unit} />
          </strong>
        )}
      </p>
    ))}
    <RecordedNotes answer={answer} unit={unit} />
  </div>
)
