import type { ReactNode } from 'react'
import { Link } from 'wouter'
import type { ReadingAtHand } from '../check/use-reading.ts'
import { firstWords } from '../strings/first-words.ts'
import { DemoPress } from '../touch/demo-press.tsx'
import { useTouch } from '../touch/touch.tsx'
import styles from './first.module.css'
import { FirstReelForm } from './first-reel-form.tsx'
import type { FirstRunAtHand } from './use-first-run.ts'

/** Three steps from an empty shelf to the first verdict, each done right here. */
export function FirstRun({
  at,
  first,
  children,
}: {
  readonly at: ReadingAtHand
  readonly first: FirstRunAtHand
  /** What stands in the first step: a print is asked for, being read, or refused. */
  readonly children: ReactNode
}): ReactNode {
  const { session } = useTouch()
  const { reading } = at
  const print = reading.kind === 'read' ? reading : null
  const tools = print?.file.prints[print.member]?.reading.families[0]?.tools ?? []
  return (
    <section className={styles['first']} aria-label={firstWords.toVerdict}>
      <h2 className={styles['headline']}>{firstWords.none}</h2>
      <p>{firstWords.toVerdict}</p>
      <ol className={styles['steps']}>
        <li data-done={print !== null}>
          <h3>{firstWords.drop}</h3>
          {print === null ? null : (
            <p role="status">
              {firstWords.draws(
                print.file.name,
                tools.map(({ peak_mm }) => peak_mm),
              )}
            </p>
          )}
          {print === null ? children : null}
        </li>
        <li data-done={first.added !== null}>
          <h3>{firstWords.tell}</h3>
          {first.added === null ? (
            <FirstReelForm onAdded={first.add} />
          ) : (
            <p role="status">{firstWords.isOn(first.added)}</p>
          )}
        </li>
        <li>
          <h3>{firstWords.read}</h3>
          <p>{firstWords.readHint}</p>
          {print !== null && first.added !== null ? (
            <Link href="/">{firstWords.readyHint}</Link>
          ) : null}
        </li>
      </ol>
      {session?.demo === true ? null : (
        <div className={styles['demo']}>
          <p>{firstWords.or}</p>
          <DemoPress />
          <p className={styles['small']}>{firstWords.demoApart}</p>
        </div>
      )}
    </section>
  )
}
