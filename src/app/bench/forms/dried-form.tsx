import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import { dryingCautions, findMaterial } from '../../../filament/index.ts'
import type { Measured } from '../../../units/index.ts'
import { useApi } from '../../api/use-api.ts'
import { NumberField } from '../../field/number-field.tsx'
import { PickReel } from '../../field/pick-of.tsx'
import { TemperatureField } from '../../field/quantity-field.tsx'
import { workWords } from '../../strings/work-words.ts'
import styles from '../bench.module.css'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'

/** A reel that was dried, and what can hurt while doing it. */
export function DriedForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const [reel, setReel] = useState(first)
  const [warmth, setWarmth] = useState<Measured | null>(null)
  const [hours, setHours] = useState<number | null>(null)
  const { data } = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const name = data?.reels.find((one) => one.reel.id === reel)?.reel.material ?? null
  const found = name === null ? null : findMaterial(name)
  const material = found?.ok === true ? found.value : null
  return (
    <BenchForm
      onAgain={onAgain}
      missing={reel === null ? workWords.needsReel : null}
      ask={(id) =>
        api.event({
          id,
          reel: reel ?? '',
          event: {
            kind: 'dried',
            ...(warmth !== null && { temperature_c: warmth.value }),
            ...(hours !== null && { hours }),
          },
        })
      }
    >
      <div className={styles['cautions']}>
        <p>{workWords.dryCare}</p>
        <ul>
          {dryingCautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
          {material === null ? null : <li>{material.caution}</li>}
        </ul>
      </div>
      {material?.drying === undefined ? null : (
        <p className={styles['soft']}>
          {workWords.pellets(
            material.name,
            material.drying.celsius,
            material.drying.hours,
            `${material.drying.source.where} (${material.drying.source.standing})`,
          )}
        </p>
      )}
      <PickReel value={reel} onChange={setReel} />
      <div className={styles['side']}>
        <TemperatureField
          label={workWords.driedAt}
          hint={workWords.mayBeLeft}
          onValue={setWarmth}
        />
        <NumberField label={workWords.hours} least={0.1} most={1000} onValue={setHours} />
      </div>
    </BenchForm>
  )
}
