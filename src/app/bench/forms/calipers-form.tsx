import { type ReactNode, useState } from 'react'
import { factBounds } from '../../../ledger/index.ts'
import { formatMeasured, type Pair, parsePair } from '../../../units/index.ts'
import { useApi } from '../../api/use-api.ts'
import { PickReel } from '../../field/pick-of.tsx'
import { Press } from '../../field/press.tsx'
import { QuantityField } from '../../field/quantity-field.tsx'
import { SideBySide } from '../../field/side-by-side.tsx'
import { withinBounds } from '../../field/within-bounds.ts'
import { workWords } from '../../strings/work-words.ts'
import styles from '../bench.module.css'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'
import { diameterOfPlaces } from '../diameter-of-places.ts'
import { DiameterStrip } from '../diameter-strip.tsx'

const atFirst = 3

/** Two diameters that filament can have. */
const parsePlace = withinBounds(
  parsePair,
  (pair) => pair.map(({ value }) => value),
  factBounds.diameter_mm,
)

/** Diameters at several places, with their mean as it comes to be. */
export function CalipersForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const [reel, setReel] = useState(first)
  const [places, setPlaces] = useState<readonly (Pair | null)[]>(() =>
    Array.from({ length: atFirst }, () => null),
  )
  const told = places.filter((pair) => pair !== null)
  const mean = diameterOfPlaces(told)
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
      <p className={styles['soft']}>{workWords.calipersHow(factBounds.diameter_mm)}</p>
      <SideBySide>
        {places.map((_, k) => (
          <QuantityField
            // oxlint-disable-next-line react/no-array-index-key -- a place is known by its number
            key={k}
            label={workWords.place(k + 1)}
            parse={parsePlace}
            onValue={(pair) => setPlaces((now) => now.map((one, at) => (at === k ? pair : one)))}
          />
        ))}
      </SideBySide>
      <Press onPress={() => setPlaces((now) => [...now, null])}>{workWords.anotherPlace}</Press>
      {mean === null ? null : (
        <div>
          <DiameterStrip places={told} mean={mean} />
          <p role="status">{workWords.meanOf(told.length, formatMeasured(mean, 'mm'))}</p>
        </div>
      )}
    </BenchForm>
  )
}
