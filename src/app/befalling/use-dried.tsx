import { useState } from 'react'
import { dryingCautions, findMaterial } from '../../filament/index.ts'
import type { Measured } from '../../units/index.ts'
import { NumberField } from '../field/number-field.tsx'
import { TemperatureField } from '../field/quantity-field.tsx'
import { SideBySide } from '../field/side-by-side.tsx'
import { befallWords } from '../strings/befall-words.ts'
import styles from './befalling.module.css'
import type { Befalling } from './befalling.ts'

/**
 * A reel that was dried, and what can hurt while doing it.
 *
 * @param named - its material, where it is known
 */
export function useDried(named: string | null): Befalling {
  const [warmth, setWarmth] = useState<Measured | null>(null)
  const [hours, setHours] = useState<number | null>(null)
  const found = named === null ? null : findMaterial(named)
  const material = found?.ok === true ? found.value : null
  return {
    fields: (
      <>
        <div className={styles['cautions']}>
          <p>{befallWords.dryCare}</p>
          <ul>
            {dryingCautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
            {material === null ? null : <li>{material.caution}</li>}
          </ul>
        </div>
        {material?.drying === undefined ? null : (
          <p className={styles['soft']}>
            {befallWords.pellets(
              material.name,
              material.drying.celsius,
              material.drying.hours,
              `${material.drying.source.where} (${material.drying.source.standing})`,
            )}
          </p>
        )}
        <SideBySide>
          <TemperatureField
            label={befallWords.driedAt}
            hint={befallWords.mayBeLeft}
            onValue={setWarmth}
          />
          <NumberField label={befallWords.hours} least={0.1} most={1000} onValue={setHours} />
        </SideBySide>
      </>
    ),
    event: {
      kind: 'dried',
      ...(warmth !== null && { temperature_c: warmth.value }),
      ...(hours !== null && { hours }),
    },
    missing: null,
  }
}
