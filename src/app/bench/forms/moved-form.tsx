import { type ReactNode, useState } from 'react'
import { useApi } from '../../api/use-api.ts'
import { PickReel } from '../../field/pick-of.tsx'
import { WordChoice } from '../../field/word-choice.tsx'
import { WordsField } from '../../field/words-field.tsx'
import { workWords } from '../../strings/work-words.ts'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'

/** A reel that stands somewhere else now. */
export function MovedForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const [reel, setReel] = useState(first)
  const [place, setPlace] = useState('')
  const [air, setAir] = useState<'unsaid' | 'room' | 'dry'>('unsaid')
  return (
    <BenchForm
      onAgain={onAgain}
      missing={
        reel === null ? workWords.needsReel : place.trim() === '' ? workWords.needsWhere : null
      }
      ask={(id) =>
        api.event({
          id,
          reel: reel ?? '',
          event: { kind: 'moved', place: place.trim(), ...(air !== 'unsaid' && { air }) },
        })
      }
    >
      <PickReel value={reel} onChange={setReel} />
      <WordsField label={workWords.where} value={place} onChange={setPlace} />
      <WordChoice label={workWords.air} words={workWords.airs} value={air} onChange={setAir} />
    </BenchForm>
  )
}
