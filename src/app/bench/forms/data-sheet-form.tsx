import { type ReactNode, useState } from 'react'
import type { Measured } from '../../../units/index.ts'
import { useApi } from '../../api/use-api.ts'
import { PickMake } from '../../field/pick-of.tsx'
import { DensityField, MassField } from '../../field/quantity-field.tsx'
import { WordsField } from '../../field/words-field.tsx'
import { workWords } from '../../strings/work-words.ts'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'

/** What a maker's sheet states of a make. */
export function DataSheetForm({ onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const [make, setMake] = useState<string | null>(null)
  const [source, setSource] = useState('')
  const [density, setDensity] = useState<Measured | null>(null)
  const [tare, setTare] = useState<Measured | null>(null)
  return (
    <BenchForm
      onAgain={onAgain}
      missing={
        make === null
          ? workWords.needsMake
          : source.trim() === ''
            ? workWords.needsSource
            : density === null && tare === null
              ? workWords.needsEither
              : null
      }
      ask={(id) =>
        api.dataSheet({
          id,
          make: make ?? '',
          source: source.trim(),
          ...(density !== null && { density_g_per_cm3: { value: density.value, u: density.u } }),
          ...(tare !== null && { tare_g: { value: tare.value, u: tare.u } }),
        })
      }
    >
      <PickMake value={make} onChange={setMake} />
      <WordsField
        label={workWords.source}
        hint={workWords.sourceHint}
        value={source}
        onChange={setSource}
      />
      <DensityField label={workWords.density} hint={workWords.densityHint} onValue={setDensity} />
      <MassField label={workWords.emptyCarrier} hint={workWords.massHint} onValue={setTare} />
    </BenchForm>
  )
}
