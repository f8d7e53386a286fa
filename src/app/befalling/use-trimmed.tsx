import { useState } from 'react'
import type { Measured } from '../../units/index.ts'
import { LengthField, MassField } from '../field/quantity-field.tsx'
import { SideBySide } from '../field/side-by-side.tsx'
import { befallWords } from '../strings/befall-words.ts'
import type { Befalling } from './befalling.ts'

/** Filament that was taken off a reel and fed to no print. */
export function useTrimmed(): Befalling {
  const [mass, setMass] = useState<Measured | null>(null)
  const [length, setLength] = useState<Measured | null>(null)
  const isTold = (mass === null) !== (length === null)
  return {
    fields: (
      <SideBySide>
        <LengthField
          label={befallWords.trimLength}
          hint={befallWords.lengthHint}
          onValue={setLength}
        />
        <MassField label={befallWords.trimMass} hint={befallWords.massHint} onValue={setMass} />
      </SideBySide>
    ),
    event: isTold
      ? {
          kind: 'trimmed',
          ...(mass !== null && { mass_g: { value: mass.value, u: mass.u } }),
          ...(length !== null && { length_mm: { value: length.value, u: length.u } }),
        }
      : null,
    missing: isTold ? null : befallWords.needsOne,
  }
}
