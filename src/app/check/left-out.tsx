import type { ReactNode } from 'react'
import type { ShelfCheckJson } from '../../contract/index.ts'
import { Press } from '../field/press.tsx'
import type { FileAnswers } from '../reading/worker-message.ts'
import { checkWords } from '../strings/check-words.ts'
import { fileWords } from '../strings/file-words.ts'
import styles from './check.module.css'
import { otherDiameter } from './file-questions.ts'

/** How many reels are not judged for their diameter, and a press that asks for theirs; nothing where none is. */
export function LeftOut({
  shelf: { other_diameter: count, diameter_mm },
  onAnswer,
}: {
  readonly shelf: Pick<ShelfCheckJson, 'other_diameter' | 'diameter_mm'>
  readonly onAnswer: (answers: FileAnswers) => void
}): ReactNode {
  if (count === 0) return null
  const other = { diameter_mm: otherDiameter(diameter_mm) }
  return (
    <div className={styles['presses']}>
      <span className={styles['small']}>{checkWords.leftOut(count, diameter_mm)}</span>
      <Press onPress={() => onAnswer(other)}>{fileWords.answer(other)}</Press>
    </div>
  )
}
