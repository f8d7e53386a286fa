import { type ReactNode, useState } from 'react'
import type { MeasuredJson, WeighingTellJson } from '../../../contract/index.ts'
import type { Measured } from '../../../units/index.ts'
import { useApi } from '../../api/use-api.ts'
import { PickReel } from '../../field/pick-of.tsx'
import { LengthField } from '../../field/quantity-field.tsx'
import { workWords } from '../../strings/work-words.ts'
import { BesideField, withBeside } from '../../weighing/beside-field.tsx'
import { WeighingField } from '../../weighing/weighing-field.tsx'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'
import { ScaleSelect } from '../scale-select.tsx'
import { useScaleChoice } from '../use-scale-choice.ts'

/** A piece cut off and weighed; it comes off the reel. */
export function CutForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const choice = useScaleChoice()
  const { scale } = choice
  const [reel, setReel] = useState(first)
  const [length, setLength] = useState<Measured | null>(null)
  const [weighing, setWeighing] = useState<WeighingTellJson | null>(null)
  const [beside, setBeside] = useState<MeasuredJson | null>(null)
  return (
    <BenchForm
      onAgain={onAgain}
      missing={
        reel === null
          ? workWords.needsReel
          : length === null
            ? workWords.needsLength
            : weighing === null
              ? workWords.needsMass
              : null
      }
      of={[reel, length, weighing, beside, scale]}
      ask={(id, accept) =>
        api.measure({
          id,
          ...(accept && { accept }),
          reel: reel ?? '',
          cut: {
            length_mm: { value: length?.value ?? 0, u: length?.u ?? 0 },
            weighing: {
              ...(withBeside(weighing, beside) ?? { reading_g: 0 }),
              ...(scale !== null && { scale }),
            },
          },
        })
      }
    >
      <PickReel value={reel} onChange={setReel} />
      <LengthField label={workWords.cutLength} hint={workWords.lengthHint} onValue={setLength} />
      <WeighingField label={workWords.cutMass} hint={workWords.cutMassHint} onValue={setWeighing} />
      <BesideField onValue={setBeside} />
      <ScaleSelect choice={choice} />
    </BenchForm>
  )
}
