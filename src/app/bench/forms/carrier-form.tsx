import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useRef, useState } from 'react'
import type { RecordedJson, ReelListJson, WeighingTellJson } from '../../../contract/index.ts'
import { useApi } from '../../api/use-api.ts'
import { PickMake, PickReel } from '../../field/pick-of.tsx'
import { WordChoice } from '../../field/word-choice.tsx'
import { useChoices } from '../../look/choices.tsx'
import { workWords } from '../../strings/work-words.ts'
import { WeighingField } from '../../weighing/weighing-field.tsx'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'
import { ChangedReels } from '../changed-reels.tsx'
import { ScaleSelect } from '../scale-select.tsx'
import { TaughtReels } from '../taught-reels.tsx'
import { useScaleChoice } from '../use-scale-choice.ts'

/** An empty carrier on the scale, and what it teaches the other reels of its make. */
export function CarrierForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const choice = useScaleChoice()
  const { scale } = choice
  const [of, setOf] = useState<'reel' | 'make'>(first === null ? 'make' : 'reel')
  const [reel, setReel] = useState(first)
  const [make, setMake] = useState<string | null>(null)
  const [weighing, setWeighing] = useState<WeighingTellJson | null>(null)
  const { data } = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const before = useRef<ReelListJson | null>(null)
  const isNamed = of === 'reel' ? reel !== null : make !== null
  const told = {
    ...(of === 'reel' ? { reel: reel ?? '' } : { make: make ?? '' }),
    empty: true,
    weighing: { reading_g: 0, ...weighing, ...(scale !== null && { scale }) },
  }
  return (
    <BenchForm
      onAgain={onAgain}
      missing={
        isNamed
          ? weighing === null
            ? workWords.needsMass
            : null
          : of === 'reel'
            ? workWords.needsReel
            : workWords.needsMake
      }
      of={told}
      ask={(id, accept) => {
        before.current ??= data ?? null
        return api.weigh({ ...told, id, accept })
      }}
      after={(answer: RecordedJson) => (
        <>
          <ChangedReels answer={answer} unit={unit} />
          <TaughtReels before={before.current} answer={answer} unit={unit} />
        </>
      )}
    >
      <WordChoice
        label={workWords.carrierOf}
        words={workWords.carriersOf}
        value={of}
        onChange={setOf}
      />
      {of === 'reel' ? (
        <PickReel all value={reel} onChange={setReel} />
      ) : (
        <PickMake value={make} onChange={setMake} />
      )}
      <WeighingField
        label={workWords.carrierShows}
        hint={workWords.massHint}
        onValue={setWeighing}
      />
      <ScaleSelect choice={choice} />
    </BenchForm>
  )
}
