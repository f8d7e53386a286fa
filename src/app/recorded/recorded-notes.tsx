import type { ReactNode } from 'react'
import type { RecordedJson } from '../../contract/index.ts'
import { Said } from '../look/said.tsx'
import { recordWords } from '../strings/record-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import { weighingWords } from '../strings/weighing-words.ts'
import styles from './recorded.module.css'

/** What to know of what was written down, earlier weighings that it shows to be wrong among it. */
export const RecordedNotes = ({
  answer: { notes, contradicted, facts },
  unit,
}: {
  readonly answer: Pick<RecordedJson, 'notes' | 'contradicted' | 'facts'>
  readonly unit: MassUnit
}): ReactNode => (
  <>
    {facts.map((fact) =>
      fact.kind === 'moved' ? (
        <p key={fact.id} className={styles['note']}>
          {recordWords.standsAt(fact.reel, fact.place)}
        </p>
      ) : null,
    )}
    {notes.map((note) => (
      <p key={note} className={styles['note']}>
        <Said>{note}</Said>
      </p>
    ))}
    {contradicted.map(({ fact, reel, at, reading_g }) => (
      <p key={fact} className={styles['note']}>
        {recordWords.contradicted(reel, at, weighingWords.plain(reading_g, unit))}
      </p>
    ))}
  </>
)
