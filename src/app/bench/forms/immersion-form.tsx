import { type ReactNode, useState } from 'react'
import { immersionDensity, waterDensity } from '../../../filament/index.ts'
import { type Celsius, formatDensity, type Grams, type Measured } from '../../../units/index.ts'
import { useApi } from '../../api/use-api.ts'
import { PickReel } from '../../field/pick-of.tsx'
import { MassField, TemperatureField } from '../../field/quantity-field.tsx'
import { SideBySide } from '../../field/side-by-side.tsx'
import { workWords } from '../../strings/work-words.ts'
import styles from '../bench.module.css'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'

/** A piece weighed in air and hung in water: its density. */
export function ImmersionForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const [reel, setReel] = useState(first)
  const [air, setAir] = useState<Measured<Grams> | null>(null)
  const [water, setWater] = useState<Measured<Grams> | null>(null)
  const [warmth, setWarmth] = useState<Measured<Celsius> | null>(null)
  const isOdd = air !== null && water !== null && water.value >= air.value
  const isCold = warmth !== null && (warmth.value < 0 || warmth.value > 40)
  const isWhole = air !== null && water !== null && warmth !== null && !isOdd && !isCold
  const missing =
    reel === null
      ? workWords.needsReel
      : isOdd
        ? workWords.lighterInWater
        : isCold
          ? workWords.waterBetween
          : isWhole
            ? null
            : workWords.needsAll
  const density =
    isWhole && air.value > 0 ? immersionDensity(air, water, waterDensity(warmth)) : null
  return (
    <BenchForm
      onAgain={onAgain}
      missing={missing}
      of={[reel, air, water, warmth]}
      ask={(id, accept) =>
        api.measure({
          id,
          ...(accept && { accept }),
          reel: reel ?? '',
          immersion: {
            in_air_g: { value: air?.value ?? 0, u: air?.u ?? 0 },
            in_water_g: { value: water?.value ?? 0, u: water?.u ?? 0 },
            water_c: warmth?.value ?? 0,
          },
        })
      }
    >
      <PickReel value={reel} onChange={setReel} />
      <p className={styles['soft']}>{workWords.immersionHow}</p>
      <SideBySide>
        <MassField label={workWords.inAir} hint={workWords.fineHint} onValue={setAir} />
        <MassField label={workWords.inWater} onValue={setWater} />
        <TemperatureField label={workWords.waterIs} onValue={setWarmth} />
      </SideBySide>
      <p role="status">{density === null ? '' : workWords.isDense(formatDensity(density))}</p>
    </BenchForm>
  )
}
