import { type ReactNode, useId } from 'react'
import { Link } from 'wouter'
import type { ContradictedJson, SurpriseJson } from '../../contract/index.ts'
import { Press } from '../field/press.tsx'
import type { MassUnit } from '../strings/show-figure.ts'
import { weighingWords } from '../strings/weighing-words.ts'
import { WeighScale } from './weigh-scale.tsx'
import styles from './weighing.module.css'

/** What a person makes of a weighing that surprises. */
export type SurpriseAnswer =
  /** It holds: post it again with `accept`. */
  | { readonly kind: 'take' }
  /** It was another reel: post it of that one, tested as any. */
  | { readonly kind: 'reel'; readonly reel: string }
  /** It was typed in other units: post that figure. */
  | { readonly kind: 'figure'; readonly reading_g: number }
  /** Nothing is to be written down. */
  | { readonly kind: 'leave' }

/** A cause less likely than this is not worth its line; the likeliest always is. */
const worthTelling = 0.01

/** By how much a weighing is off, and the ranked causes, each with a press where one puts it right. */
export function Surprise({
  surprise,
  reading_g,
  unit,
  atFault = [],
  isBusy = false,
  onAnswer,
}: {
  readonly surprise: SurpriseJson
  /** As it was told. */
  readonly reading_g: number
  readonly unit: MassUnit
  /** Earlier weighings without any one of which this one would not surprise. */
  readonly atFault?: readonly ContradictedJson[]
  /** True while the answer before is being written down. */
  readonly isBusy?: boolean
  readonly onAnswer: (answer: SurpriseAnswer) => void
}): ReactNode {
  const id = useId()
  const causes = surprise.causes.filter(
    ({ weight, code }, place) => code !== 'chance' && (place === 0 || weight >= worthTelling),
  )
  const press = (answer: SurpriseAnswer, word: string): ReactNode => (
    <Press isDisabled={isBusy} onPress={() => onAnswer(answer)}>
      {word}
    </Press>
  )
  return (
    <section className={styles['surprise']} aria-labelledby={id} role="alert">
      <p id={id} className={styles['headline']}>
        {weighingWords.surprise}
      </p>
      <p>{weighingWords.isOff(reading_g, surprise, unit)}</p>
      <WeighScale expected_g={surprise.expected_g} reading_g={reading_g} unit={unit} />
      {causes.length === 0 ? (
        <p>{weighingWords.noCauses}</p>
      ) : (
        <>
          <p>{weighingWords.causes}</p>
          <ol className={styles['causes']}>
            {causes.map((cause) => (
              <li key={`${cause.code} ${cause.reel ?? ''}`}>
                <span className={styles['weight']}>{weighingWords.weight(cause)}</span>
                <span>{weighingWords.cause(cause, unit)}</span>
                {cause.reel !== null
                  ? press({ kind: 'reel', reel: cause.reel }, weighingWords.wasReel(cause.reel))
                  : cause.reading_g !== null
                    ? press(
                        { kind: 'figure', reading_g: cause.reading_g },
                        weighingWords.wasFigure(cause.reading_g, unit),
                      )
                    : null}
              </li>
            ))}
          </ol>
        </>
      )}
      {atFault.map((earlier) => (
        <p key={earlier.fact}>
          {weighingWords.atFault(earlier, unit)}{' '}
          <Link href={`/reel/${earlier.reel}`}>{weighingWords.toReel(earlier.reel)}</Link>
        </p>
      ))}
      <div className={styles['presses']}>
        {press({ kind: 'take' }, weighingWords.take)}
        {press({ kind: 'leave' }, weighingWords.leave)}
      </div>
    </section>
  )
}
