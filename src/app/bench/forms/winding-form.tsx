import { type ReactNode, useState } from 'react'
import type { Measured } from '../../../units/index.ts'
import { useApi } from '../../api/use-api.ts'
import { PickReel } from '../../field/pick-of.tsx'
import { LengthField } from '../../field/quantity-field.tsx'
import { SideBySide } from '../../field/side-by-side.tsx'
import { workWords } from '../../strings/work-words.ts'
import styles from '../bench.module.css'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'

const json = (one: Measured | null): { value: number; u: number } => ({
  value: one?.value ?? 0,
  u: one?.u ?? 0,
})

/** How large the winding is, where there is no scale. */
export function WindingForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const [reel, setReel] = useState(first)
  const [hub, setHub] = useState<Measured | null>(null)
  const [outer, setOuter] = useState<Measured | null>(null)
  const [width, setWidth] = useState<Measured | null>(null)
  return (
    <BenchForm
      onAgain={onAgain}
      missing={
        reel === null
          ? workWords.needsReel
          : hub === null || outer === null || width === null
            ? workWords.needsAll
            : outer.value < hub.value
              ? workWords.outerAboveHub
              : null
      }
      of={[reel, hub, outer, width]}
      ask={(id, accept) =>
        api.measure({
          id,
          ...(accept && { accept }),
          reel: reel ?? '',
          winding: { hub_mm: json(hub), outer_mm: json(outer), width_mm: json(width) },
        })
      }
    >
      <PickReel value={reel} onChange={setReel} />
      <p className={styles['soft']}>{workWords.windingHow}</p>
      <SideBySide>
        <LengthField label={workWords.hub} hint={workWords.windingHint} onValue={setHub} />
        <LengthField label={workWords.outer} onValue={setOuter} />
        <LengthField label={workWords.width} onValue={setWidth} />
      </SideBySide>
    </BenchForm>
  )
}
