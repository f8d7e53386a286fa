import type { ReactNode } from 'react'
import { WordChoice } from '../field/word-choice.tsx'
import { arrivalWords } from '../strings/arrival-words.ts'
import type { ReelState } from './told-as.ts'

/** Whether what arrives is new or part-used. @param many - several alike arrive in one go */
export const ReelStateChoice = ({
  many = false,
  value,
  onChange,
}: {
  readonly many?: boolean
  readonly value: ReelState
  readonly onChange: (state: ReelState) => void
}): ReactNode => (
  <WordChoice
    label={arrivalWords.state(many)}
    words={arrivalWords.states}
    value={value}
    onChange={onChange}
  />
)
