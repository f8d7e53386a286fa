import { type ReactNode, useEffect, useState } from 'react'
import { MassField } from '../field/quantity-field.tsx'
import { checkWords } from '../strings/check-words.ts'
import styles from './check.module.css'

/** A pause as long as this ends a figure, ms: each one asked about is a reckoning. */
const pause = 250

/** What the scale shows with a reel, tried before it is kept: the verdict follows. */
export function WeighField({
  reel,
  onGross,
}: {
  readonly reel: string
  /** Told grams after a pause; null where there is no figure. */
  readonly onGross: (gross_g: number | null) => void
}): ReactNode {
  const [gross, setGross] = useState<number | null>(null)
  const [touched, setTouched] = useState(false)
  useEffect(() => {
    if (!touched) return undefined
    const timer = setTimeout(() => onGross(gross), pause)
    return () => clearTimeout(timer)
    // Told again only when the figure is another.
  }, [gross, touched])
  return (
    <div className={styles['weigh']}>
      <MassField
        label={checkWords.weigh(reel)}
        hint={checkWords.weighHint}
        onValue={(mass) => {
          setTouched(true)
          setGross(mass?.value ?? null)
        }}
      />
    </div>
  )
}
