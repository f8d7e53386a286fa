import type { ReactNode } from 'react'
import { Link } from 'wouter'
import { Swatch } from '../drawing/swatch.tsx'
import { Trough, TroughRule, type TroughScale } from '../drawing/trough.tsx'
import { usePrinted } from '../drawing/use-printed.ts'
import { useWidth } from '../drawing/use-width.ts'
import { Press } from '../field/press.tsx'
import { MassFigure } from '../figure/mass-figure.tsx'
import { planWords } from '../strings/plan-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import type { DutyPicture, TroughPicture } from './plan-picture.ts'
import styles from './slate.module.css'

/** By what a line of the plan is known while it is asked about. */
export const keyOf = ({ reel, mark, tool }: DutyPicture): string => `${reel} ${mark} ${tool}`

/** A reel may feed several parts of one print. */
const keyOfRunning = ({ printer, tool, after_layer }: TroughPicture['running'][number]): string =>
  `${printer} ${tool} ${after_layer}`

/** On paper troughs stand in two columns, each so wide, px. */
const widthOnPaper = 430

/** Reels as troughs to one scale, what is laid into each below it. */
export function TroughList({
  troughs,
  unit,
  chosen,
  onChoose,
  about,
}: {
  /** At least one. */
  readonly troughs: readonly TroughPicture[]
  readonly unit: MassUnit
  /** The line that is asked about. */
  readonly chosen: string | null
  /** Pressed again it is let go. */
  readonly onChoose: (key: string | null) => void
  /** What is told of the line chosen, and what can be done about it. */
  readonly about: (duty: DutyPicture) => ReactNode
}): ReactNode {
  const [ref, room] = useWidth<HTMLDivElement>(340)
  const width = usePrinted() ? widthOnPaper : room
  const most = Math.max(...troughs.map(({ holds_g: { value, u } }) => value + 2 * u))
  const scale: TroughScale = { width, end_g: Math.max(most, 1) }
  return (
    <div ref={ref} className={styles['troughs']}>
      <TroughRule scale={scale} unit={unit} />
      {troughs.map((trough) => (
        <section
          key={trough.reel}
          className={styles['trough']}
          aria-label={planWords.reel(trough.reel)}
        >
          <div className={styles['reelLine']}>
            <h3>
              <Swatch colour={trough.colour_srgb} />{' '}
              {trough.imagined ? (
                trough.reel
              ) : (
                <Link href={`/reel/${trough.reel}`} className={styles['way']}>
                  {trough.reel}
                </Link>
              )}{' '}
              <span className={styles['soft']}>{trough.name}</span>
            </h3>
            <span className={styles['soft']}>
              {planWords.state(trough)} <MassFigure mass={trough.holds_g} unit={unit} />
            </span>
          </div>
          <Trough
            scale={scale}
            holds_g={trough.holds_g}
            left_g={trough.left_g}
            tail_g={trough.tail_g}
            bars={[
              ...trough.running.map((runs) => ({
                key: keyOfRunning(runs),
                mark: planWords.now,
                needed_g: runs.needed_g,
              })),
              ...trough.duties.map((duty) => ({ ...duty, key: keyOf(duty) })),
            ]}
            colour={trough.colour_srgb}
            chosen={chosen}
            label={planWords.trough(trough, unit)}
          />
          <ul className={styles['duties']}>
            {trough.running.map((runs) => (
              <li key={keyOfRunning(runs)}>
                <b className={styles['mark']}>{planWords.now}</b>
                <span className={styles['what']}>
                  {runs.file} <span className={styles['soft']}>{planWords.runs(runs)}</span>
                </span>
                <span className={styles['mass']}>
                  <MassFigure mass={runs.needed_g} unit={unit} />
                </span>
                <span />
              </li>
            ))}
            {trough.duties.map((duty) => {
              const isChosen = keyOf(duty) === chosen
              return (
                <li key={keyOf(duty)}>
                  <b className={styles['mark']}>{duty.mark}</b>
                  <span className={styles['what']}>
                    {planWords.what(duty)}{' '}
                    <span className={styles['soft']}>{planWords.where(duty)}</span>
                  </span>
                  <span className={styles['mass']}>
                    <MassFigure mass={duty.needed_g} unit={unit} />
                  </span>
                  <span className={styles['askPress']}>
                    <Press
                      aria-expanded={isChosen}
                      aria-label={planWords.aboutOf(duty)}
                      onPress={() => onChoose(isChosen ? null : keyOf(duty))}
                    >
                      {planWords.about}
                    </Press>
                  </span>
                  {isChosen ? <div className={styles['why']}>{about(duty)}</div> : null}
                </li>
              )
            })}
            <li>
              <span />
              <span className={styles['soft']}>{planWords.left(trough)}</span>
              <span className={styles['mass']}>
                <MassFigure mass={trough.left_g} unit={unit} />
              </span>
              <span />
            </li>
          </ul>
        </section>
      ))}
    </div>
  )
}
