import type { ReactNode } from 'react'
import { useApi } from '../../api/use-api.ts'
import type { Befalling } from '../../befalling/befalling.ts'
import { PickReel } from '../../field/pick-of.tsx'
import { workWords } from '../../strings/work-words.ts'
import { BenchForm } from '../bench-form.tsx'

/** Something that befell a reel, told at the bench. */
export function BefallenForm({
  reel,
  onReel,
  befalling: { fields, event, missing },
  onAgain,
}: {
  readonly reel: string | null
  readonly onReel: (reel: string | null) => void
  readonly befalling: Befalling
  readonly onAgain: () => void
}): ReactNode {
  const api = useApi()
  return (
    <BenchForm
      onAgain={onAgain}
      missing={reel === null ? workWords.needsReel : missing}
      of={[reel, event]}
      ask={(id, accept) =>
        event === null || reel === null
          ? Promise.reject(new Error(missing ?? workWords.needsReel))
          : api.event({ id, reel, event, ...(accept && { accept }) })
      }
    >
      <PickReel value={reel} onChange={onReel} />
      {fields}
    </BenchForm>
  )
}
