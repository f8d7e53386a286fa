import type { ReactNode } from 'react'
import type { Finding, PrintReading } from '../../print/index.ts'
import { Press } from '../field/press.tsx'
import type { FileAnswers } from '../reading/worker-message.ts'
import { fileWords } from '../strings/file-words.ts'
import styles from './check.module.css'

/** Answers that a person can give, by the question. */
const answersTo: Readonly<Record<string, readonly FileAnswers[]>> = {
  e_looks_like_mm3: [{ eUnit: 'mm3' }, { eUnit: 'mm' }],
  e_looks_relative: [{ eMode: 'relative' }, { eMode: 'absolute' }],
  e_looks_made_for_other_diameter: [{ diameter_mm: 2.85 }, { madeFor_mm: 1.75 }],
}

/** Which firmware runs the printer is asked where the printer is. */
const isAskedElsewhere = ({ code }: Finding): boolean => code === 'families_differ'

/** What a file leaves open, with presses that answer it, and what a person should know of it. */
export function FileRemarks({
  reading: { findings },
  onAnswer,
}: {
  readonly reading: PrintReading
  readonly onAnswer: (answers: FileAnswers) => void
}): ReactNode {
  const told = findings.filter((one) => !isAskedElsewhere(one))
  const of = (severity: Finding['severity']): readonly Finding[] =>
    told.filter((one) => one.severity === severity)
  const notes = of('note')
  if (told.length === 0) return null
  return (
    <section className={styles['fileSays']} aria-label={fileWords.says}>
      {of('ask').map((asked) => (
        <div key={asked.code} role="alert" className={styles['asks']}>
          <p>{asked.message}</p>
          <div className={styles['presses']}>
            {(answersTo[asked.code] ?? []).map((answers) => (
              <Press key={JSON.stringify(answers)} onPress={() => onAnswer(answers)}>
                {fileWords.answer(answers)}
              </Press>
            ))}
          </div>
        </div>
      ))}
      {of('warn').map((one) => (
        <p key={one.code} className={styles['warns']}>
          {fileWords.found(one)}
        </p>
      ))}
      {notes.length === 0 ? null : (
        <details>
          <summary>{fileWords.notes(notes.length)}</summary>
          <ul>
            {notes.map((one) => (
              <li key={one.code}>{fileWords.found(one)}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}
