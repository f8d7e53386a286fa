import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useRef, useState } from 'react'
import type {
  MeasuredJson,
  RecordedJson,
  ReelListJson,
  WeighingTellJson,
} from '../../../contract/index.ts'
import { useApi } from '../../api/use-api.ts'
import { ChoiceField } from '../../field/choice-field.tsx'
import { PickMake, PickReel } from '../../field/pick-of.tsx'
import { WordChoice } from '../../field/word-choice.tsx'
import { useChoices } from '../../look/choices.tsx'
import { showMass } from '../../strings/show-figure.ts'
import { workWords } from '../../strings/work-words.ts'
import { BesideField, withBeside } from '../../weighing/beside-field.tsx'
import { WeighingField } from '../../weighing/weighing-field.tsx'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'
import { ChangedReels } from '../changed-reels.tsx'
import { ScaleSelect } from '../scale-select.tsx'
import { TaughtReels } from '../taught-reels.tsx'
import { useScaleChoice } from '../use-scale-choice.ts'

type CarrierOf = keyof typeof workWords.carriersOf

/** An empty carrier on the scale, and what it teaches the other reels of its make. */
export function CarrierForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const choice = useScaleChoice()
  const { scale } = choice
  const { data } = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const learnt = useQuery({ queryKey: ['learnt'], queryFn: () => api.learnt() })
  const [of, setOf] = useState<CarrierOf>(
    first === null ? 'make' : carrierAtHand(data?.reels ?? [], first),
  )
  const [reel, setReel] = useState(first)
  const [make, setMake] = useState<string | null>(null)
  const [label, setLabel] = useState('')
  const [weighing, setWeighing] = useState<WeighingTellJson | null>(null)
  const [beside, setBeside] = useState<MeasuredJson | null>(null)
  const before = useRef<ReelListJson | null>(null)
  const labels = learnt.data?.makes.find(({ id }) => id === make)?.carrier_labels_g ?? []
  const hasSizes = of === 'make' && labels.length > 1
  const whose =
    of === 'make'
      ? make === null
        ? workWords.needsMake
        : null
      : reel === null
        ? workWords.needsReel
        : null
  const told = {
    ...(of === 'make' ? { make: make ?? '' } : { reel: reel ?? '' }),
    ...(of === 'like' && { another: true }),
    ...(hasSizes && label !== '' && { label_net_g: Number(label) }),
    empty: true,
    weighing: {
      ...(withBeside(weighing, beside) ?? { reading_g: 0 }),
      ...(scale !== null && { scale }),
    },
  }
  return (
    <BenchForm
      onAgain={onAgain}
      missing={
        whose ??
        (hasSizes && label === '' ? workWords.needsLabel : null) ??
        (weighing === null ? workWords.needsMass : null)
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
      {of === 'make' ? (
        <PickMake
          value={make}
          onChange={(next) => {
            setMake(next)
            setLabel('')
          }}
        />
      ) : (
        <PickReel all value={reel} onChange={setReel} />
      )}
      {hasSizes ? (
        <ChoiceField
          label={workWords.carrierLabel}
          words={[
            ['', workWords.chooseLabel],
            ...labels.map((one) => [String(one), showMass({ value: one, u: 0 }, unit)] as const),
          ]}
          value={label}
          onChange={setLabel}
        />
      ) : null}
      <WeighingField
        label={workWords.carrierShows}
        hint={workWords.massHint}
        onValue={setWeighing}
      />
      <BesideField onValue={setBeside} />
      <ScaleSelect choice={choice} />
    </BenchForm>
  )
}

/** A reel with filament on it has no empty carrier of its own: then it is another like it. */
const carrierAtHand = (reels: ReelListJson['reels'], id: string): CarrierOf => {
  const state = reels.find(({ reel }) => reel.id === id)?.reel.state
  return state === 'new' || state === 'part-used' ? 'like' : 'reel'
}
