import { type ReactNode, useState } from 'react'
import type { Measured } from '../../../units/index.ts'
import { useApi } from '../../api/use-api.ts'
import { PickReel } from '../../field/pick-of.tsx'
import { LengthField, MassField } from '../../field/quantity-field.tsx'
import { workWords } from '../../strings/work-words.ts'
import styles from '../bench.module.css'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'

/** Filament that was taken off a reel and fed to no print. */
export function TrimmedForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const [reel, setReel] = useState(first)
  const [mass, setMass] = useState<Measured | null>(null)
  const [length, setLength] = useState<Measured | null>(null)
  return (
    <BenchForm
      onAgain={onAgain}
      missing={
        reel === null
          ? workWords.needsReel
          : (mass === null) === (length === null)
            ? workWords.needsOne
            : null
      }
      ask={(id) =>
        api.event({
          id,
          reel: reel ?? '',
          event: {
            kind: 'trimmed',
            ...(mass !== null && { mass_g: { value: mass.value, u: mass.u } }),
            ...(length !== null && { length_mm: { value: length.value, u: length.u } }),
          },
        })
      }
    >
      <PickReel value={reel} onChange={setReel} />
      <div className={styles['side']}>
        <LengthField label={workWords.trimLength} hint={workWords.lengthHint} onValue={setLength} />
        <MassField label={workWords.trimMass} hint={workWords.massHint} onValue={setMass} />
      </div>
    </BenchForm>
  )
}
