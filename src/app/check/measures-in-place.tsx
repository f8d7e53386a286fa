import { type ReactNode, useState } from 'react'
import type { MeasuredJson, SupposedJson, WeighingTellJson } from '../../contract/index.ts'
import type { Measured, Pair } from '../../units/index.ts'
import { useApi } from '../api/use-api.ts'
import { CaliperPlaces } from '../bench/caliper-places.tsx'
import { ScaleSelect } from '../bench/scale-select.tsx'
import { useScaleChoice } from '../bench/use-scale-choice.ts'
import { LengthField } from '../field/quantity-field.tsx'
import { checkWords } from '../strings/check-words.ts'
import { workWords } from '../strings/work-words.ts'
import { BesideField, withBeside } from '../weighing/beside-field.tsx'
import { WeighingField } from '../weighing/weighing-field.tsx'
import { type MeasureInPlace, TriedMeasure } from './tried-measure.tsx'

type Props<K extends keyof SupposedJson> = MeasureInPlace<NonNullable<SupposedJson[K]>>

/** What the scale shows with an empty carrier of the reel's make. */
export function CarrierInPlace({ reel, ...common }: Props<'empty_carrier'>): ReactNode {
  const api = useApi()
  const choice = useScaleChoice()
  const { scale } = choice
  const [shown, setShown] = useState<WeighingTellJson | null>(null)
  const [beside, setBeside] = useState<MeasuredJson | null>(null)
  const [isUnread, setUnread] = useState(false)
  return (
    <TriedMeasure
      {...common}
      value={withBeside(shown && { ...shown, ...(scale !== null && { scale }) }, beside)}
      isUnread={isUnread}
      keep={checkWords.keepMeasure.empty_carrier}
      // The reel at hand has filament on it: it is another carrier that is empty.
      ask={(weighing, id, accept) =>
        api.weigh({ id, reel, empty: true, another: true, weighing, accept })
      }
      onClear={() => {
        setShown(null)
        setBeside(null)
        setUnread(false)
      }}
    >
      <WeighingField
        label={checkWords.carrierOf(reel)}
        hint={checkWords.weighHint}
        onValue={setShown}
      />
      <BesideField onValue={setBeside} onUnread={setUnread} />
      <ScaleSelect choice={choice} />
    </TriedMeasure>
  )
}

/** What calipers show at several places of its filament. */
export function CalipersInPlace({ reel, ...common }: Props<'calipers'>): ReactNode {
  const api = useApi()
  const [places, setPlaces] = useState<readonly Pair[]>([])
  return (
    <TriedMeasure
      {...common}
      value={
        places.length === 0
          ? null
          : { places_mm: places.map(([one, other]) => [one.value, other.value] as const) }
      }
      keep={checkWords.keepMeasure.calipers}
      ask={(calipers, id, accept) => api.measure({ id, reel, calipers, ...(accept && { accept }) })}
      onClear={() => setPlaces([])}
    >
      <CaliperPlaces onPlaces={setPlaces} />
    </TriedMeasure>
  )
}

/** A piece cut off, and what the scale shows with it. */
export function CutInPlace({ reel, ...common }: Props<'cut'>): ReactNode {
  const api = useApi()
  const choice = useScaleChoice()
  const { scale } = choice
  const [length, setLength] = useState<Measured | null>(null)
  const [shown, setShown] = useState<WeighingTellJson | null>(null)
  const [beside, setBeside] = useState<MeasuredJson | null>(null)
  const [isUnread, setUnread] = useState(false)
  return (
    <TriedMeasure
      {...common}
      value={
        length &&
        shown && {
          length_mm: { value: length.value, u: length.u },
          weighing: withBeside({ ...shown, ...(scale !== null && { scale }) }, beside),
        }
      }
      isUnread={isUnread}
      keep={checkWords.keepMeasure.cut}
      ask={(cut, id, accept) => api.measure({ id, reel, cut, ...(accept && { accept }) })}
      onClear={() => {
        setLength(null)
        setShown(null)
        setBeside(null)
        setUnread(false)
      }}
    >
      <LengthField label={workWords.cutLength} hint={workWords.lengthHint} onValue={setLength} />
      <WeighingField label={workWords.cutMass} hint={workWords.cutMassHint} onValue={setShown} />
      <BesideField onValue={setBeside} onUnread={setUnread} />
      <ScaleSelect choice={choice} />
    </TriedMeasure>
  )
}
