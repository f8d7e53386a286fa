import { type ReactNode, useState } from 'react'
import type { Pair } from '../../../units/index.ts'
import { useApi } from '../../api/use-api.ts'
import { PickReel } from '../../field/pick-of.tsx'
import { workWords } from '../../strings/work-words.ts'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'
import { CaliperPlaces } from '../caliper-places.tsx'

/** Diameters at several places, with their mean as it comes to be. */
export function CalipersForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const [reel, setReel] = useState(first)
  const [told, setTold] = useState<readonly Pair[]>([])
  return (
    <BenchForm
      onAgain={onAgain}
      missing={
        reel === null ? workWords.needsReel : told.length === 0 ? workWords.needsPlace : null
      }
      of={[reel, told]}
      ask={(id, accept) =>
        api.measure({
          id,
          ...(accept && { accept }),
          reel: reel ?? '',
          calipers: { places_mm: told.map(([one, other]) => [one.value, other.value]) },
        })
      }
    >
      <PickReel value={reel} onChange={setReel} />
      <CaliperPlaces onPlaces={setTold} />
    </BenchForm>
  )
}
