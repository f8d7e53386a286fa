import { useState } from 'react'
import { WordChoice } from '../field/word-choice.tsx'
import { WordsField } from '../field/words-field.tsx'
import { befallWords } from '../strings/befall-words.ts'
import type { Befalling } from './befalling.ts'

/** A reel that stands somewhere else now. */
export function useMoved(): Befalling {
  const [place, setPlace] = useState('')
  const [air, setAir] = useState<keyof typeof befallWords.airs>('unsaid')
  const isTold = place.trim() !== ''
  return {
    fields: (
      <>
        <WordsField label={befallWords.where} value={place} onChange={setPlace} />
        <WordChoice
          label={befallWords.air}
          words={befallWords.airs}
          value={air}
          onChange={setAir}
        />
      </>
    ),
    event: isTold ? { kind: 'moved', place: place.trim(), ...(air !== 'unsaid' && { air }) } : null,
    missing: isTold ? null : befallWords.needsWhere,
  }
}
