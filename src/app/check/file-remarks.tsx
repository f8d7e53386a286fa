import type { ReactNode } from 'react'
import type { Finding, PrintReading } from '../../print/index.ts'
import { Press } from '../field/press.tsx'
import { Said } from '../look/said.tsx'
import type { FileAnswers } from '../reading/worker-message.ts'
import { fileWords } from '../strings/file-words.ts'
import styles from './check.module.css'
import { answersGiven, answersTo } from './file-questions.ts'

/** Which firmware runs the printer is asked where the printer is. */
const isAskedElsewhere = ({ code }: Finding): boolean => code === 'families_differ'

/** What a file leaves open, with presses that answer it, what was answered, and what a person should know of it. */
export function FileRemarks({
  reading: { findings },
  answers: before,
  onAnswer,
  onAsk,
}: {
  readonly reading: PrintReading
  readonly answers: FileAnswers
  readonly onAnswer: (answers: FileAnswers) => void
  /** Takes an answer back: the file is asked about again. */
  readonly onAsk: (given: FileAnswers) => void
}): ReactNode {
  const told = findings.filter((one) => !isAskedElsewhere(one))
  const of = (severity: Finding['severity']): readonly Finding[] =>
    told.filter((one) => one.severity === severity)
  const notes = of('note')
  const given = answersGiven(before)
  if (told.length === 0 && given.length === 0) return null
  return (
    <section className={styles['fileSays']} aria-label={fileWords.says}>
      {of('ask').map((asked) => (
        <div key={asked.code} role="alert" className={styles['asks']}>
          <p>
            <Said>{asked.message}</Said>
          </p>
          <div className={styles['presses']}>
            {answersTo(asked.code, before).map((answers) => (
              <Press key={JSON.stringify(answers)} onPress={() => onAnswer(answers)}>
                {fileWords.answer(answers)}
              </Press>
            ))}
          </div>
        </div>
      ))}
      {given.map((answers) => (
        <p key={JSON.stringify(answers)} className={styles['presses']}>
          {fileWords.answered(answers)}
          <Press onPress={() => onAsk(answers)}>{fileWords.askAgain}</Press>
        </p>
      ))}
      {of('warn').map((one) => (
        <p key={one.code} className={styles['warns']}>
          <Said>{fileWords.found(one)}</Said>
        </p>
      ))}
      {notes.length === 0 ? null : (
        <details>
          <summary>{fileWords.notes(notes.length)}</summary>
          <ul>
            {notes.map((one) => (
              <li key={one.code}>
                <Said>{fileWords.found(one)}</Said>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}
