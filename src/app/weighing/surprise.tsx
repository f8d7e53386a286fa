import { type ReactNode, useId } from 'react'
import { Link } from 'wouter'
import { Press } from '../field/press.tsx'
import type { Posting } from '../recorded/use-posting.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import { weighingWords } from '../strings/weighing-words.ts'
import { type SurpriseAnswer, settleSurprise, type Weighed } from './settle-surprise.ts'
import { WeighScale } from './weigh-scale.tsx'
import styles from './weighing.module.css'

/** A cause less likely than this is not worth its line; the likeliest always is. */
const worthTelling = 0.01

/**
 * By how much the weighing that was posted last is off, and the ranked causes, each with a press where one
 * puts it right; nothing where it does not surprise.
 */
export function Surprise<T extends Weighed>({
  posting,
  unit,
  canRestate = true,
  onLeave = posting.forget,
}: {
  readonly posting: Posting<T>
  readonly unit: MassUnit
  /** False where what a cause says can not be posted in its place: it is typed anew. */
  readonly canRestate?: boolean
  /** Nothing is to be written down; forgets the answer unless given. */
  readonly onLeave?: () => void
}): ReactNode {
  const id = useId()
  const { answer, told, isBusy } = posting
  if (answer === null || answer.recorded || answer.surprise === null) return null
  const { surprise, contradicted } = answer
  // What was tested, whatever stands in the form.
  const reading_g = surprise.expected_g.value + surprise.off_g
  const causes = surprise.causes.filter(
    ({ weight, code }, place) => code !== 'chance' && (place === 0 || weight >= worthTelling),
  )
  const press = (said: SurpriseAnswer, word: string): ReactNode => (
    <Press isDisabled={isBusy} onPress={() => settleSurprise(posting, said)}>
      {word}
    </Press>
  )
  return (
    <section className={styles['surprise']} aria-labelledby={id} role="alert">
      <p id={id} className={styles['headline']}>
        {weighingWords.surprise(told?.reel ?? null)}
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
                {!canRestate
                  ? null
                  : cause.reel !== null
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
      {contradicted.map((earlier) => (
        <p key={earlier.fact}>
          {weighingWords.atFault(earlier, unit)}{' '}
          <Link href={`/reel/${earlier.reel}`}>{weighingWords.toReel(earlier.reel)}</Link>
        </p>
      ))}
      <div className={styles['presses']}>
        {press({ kind: 'take' }, weighingWords.take)}
        <Press isDisabled={isBusy} onPress={onLeave}>
          {weighingWords.leave}
        </Press>
      </div>
    </section>
  )
}
