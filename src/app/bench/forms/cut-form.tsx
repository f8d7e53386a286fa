import { type ReactNode, useState } from 'react'
import type { WeighingTellJson } from '../../../contract/index.ts'
import type { Measured } from '../../../units/index.ts'
import { useApi } from '../../api/use-api.ts'
import { PickReel } from '../../field/pick-of.tsx'
import { LengthField } from '../../field/quantity-field.tsx'
import { workWords } from '../../strings/work-words.ts'
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
      of={[reel, length, weighing, scale]}
      ask={(id, accept) =>
        api.measure({
          id,
          ...(accept && { accept }),
          reel: reel ?? '',
          cut: {
            length_mm: { value: length?.value ?? 0, u: length?.u ?? 0 },
            weighing: { reading_g: 0, ...weighing, ...(scale !== null && { scale }) },
          },
        })
      }
    >
      <PickReel value={reel} onChange={setReel} />
      <LengthField label={workWords.cutLength} hint={workWords.lengthHint} onValue={setLength} />
      <WeighingField label={workWords.cutMass} hint={workWords.cutMassHint} onValue={setWeighing} />
      <ScaleSelect choice={choice} />
    </BenchForm>
  )
}
