import { type ReactNode, useState } from 'react'
import { factBounds } from '../../ledger/index.ts'
import { formatMeasured, type Pair, parsePair } from '../../units/index.ts'
import { Press } from '../field/press.tsx'
import { QuantityField } from '../field/quantity-field.tsx'
import { SideBySide } from '../field/side-by-side.tsx'
import { withinBounds } from '../field/within-bounds.ts'
import { workWords } from '../strings/work-words.ts'
import styles from './bench.module.css'
import { diameterOfPlaces } from './diameter-of-places.ts'
import { DiameterStrip } from './diameter-strip.tsx'

const atFirst = 3

/** Two diameters that filament can have. */
const parsePlace = withinBounds(
  parsePair,
  (pair) => pair.map(({ value }) => value),
  factBounds.diameter_mm,
)

/** Diameters at several places, with their mean as it comes to be. */
export function CaliperPlaces({
  onPlaces,
}: {
  /** Told those that can be read. */
  readonly onPlaces: (places: readonly Pair[]) => void
}): ReactNode {
  const [places, setPlaces] = useState<readonly (Pair | null)[]>(() =>
    Array.from({ length: atFirst }, () => null),
  )
  const told = places.filter((pair) => pair !== null)
  const mean = diameterOfPlaces(told)
  return (
    <>
      <p className={styles['soft']}>{workWords.calipersHow(factBounds.diameter_mm)}</p>
      <SideBySide>
        {places.map((_, k) => (
          <QuantityField
            // oxlint-disable-next-line react/no-array-index-key -- a place is known by its number
            key={k}
            label={workWords.place(k + 1)}
            parse={parsePlace}
            onValue={(pair) => {
              const next = places.map((one, at) => (at === k ? pair : one))
              setPlaces(next)
              onPlaces(next.filter((one) => one !== null))
            }}
          />
        ))}
      </SideBySide>
      <Press onPress={() => setPlaces((now) => [...now, null])}>{workWords.anotherPlace}</Press>
      {mean === null ? null : (
        <div>
          <DiameterStrip places={places} mean={mean} />
          <p role="status">{workWords.meanOf(told.length, formatMeasured(mean, 'mm'))}</p>
        </div>
      )}
    </>
  )
}
