import { type ReactNode, useEffect, useRef, useState } from 'react'
import type { RecordedJson } from '../../contract/index.ts'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { useChoices } from '../look/choices.tsx'
import { isDoubt } from '../recorded/use-posting.ts'
import { benchWords } from '../strings/bench-words.ts'
import { recordWords } from '../strings/record-words.ts'
import { sayFailure } from '../strings/say-failure.ts'
import { Surprise } from '../weighing/surprise.tsx'
import styles from './bench.module.css'
import { ChangedReels } from './changed-reels.tsx'
import { useTelling } from './use-telling.ts'

/** What every form of bench work is given. */
export interface BenchFormProps {
  /** Id of the reel that it begins with. */
  readonly reel: string | null
  /** Begins the form anew. */
  readonly onAgain: () => void
}

/** Fields, a press that writes them down once, and then what changed of which reel. */
export function BenchForm({
  children,
  missing,
  ask,
  reading_g,
  after,
  onAgain,
}: {
  readonly children: ReactNode
  /** What is still to be told before it can be written down. */
  readonly missing: string | null
  readonly ask: (id: string, accept: boolean) => Promise<RecordedJson>
  /** What stood on the scale, where something did. */
  readonly reading_g?: number | null
  /** Stands in the place of what changed. */
  readonly after?: (answer: RecordedJson) => ReactNode
  readonly onAgain: () => void
}): ReactNode {
  const { unit } = useChoices()
  const { answer, error, isBusy, tell, again } = useTelling()
  const [isAsked, setAsked] = useState(false)
  const head = useRef<HTMLHeadingElement>(null)
  const isKept = answer?.recorded === true
  useEffect(() => {
    if (isKept) head.current?.focus()
  }, [isKept])
  if (answer?.recorded === true) {
    return (
      <div role="status">
        <h3 ref={head} tabIndex={-1} className={styles['kept']}>
          {benchWords.kept}
        </h3>
        {after?.(answer) ?? <ChangedReels answer={answer} unit={unit} />}
        <Press onPress={onAgain}>{benchWords.once}</Press>
      </div>
    )
  }
  return (
    <form
      noValidate
      className={styles['form']}
      onSubmit={(event) => {
        event.preventDefault()
        if (goToUnread(event.currentTarget)) return
        setAsked(true)
        if (missing === null) tell((id) => ask(id, false))
      }}
    >
      {children}
      {isAsked && missing !== null ? (
        <p role="alert" className={styles['refused']}>
          {missing}
        </p>
      ) : null}
      {error === null ? null : (
        <div role="alert" className={styles['refused']}>
          <p>{sayFailure(error)}</p>
          {isDoubt(error) ? (
            <Press isDisabled={isBusy} onPress={() => tell((id) => ask(id, true))}>
              {recordWords.anyway}
            </Press>
          ) : null}
        </div>
      )}
      {answer?.surprise == null || reading_g == null ? (
        <Press main type="submit" isDisabled={isBusy}>
          {benchWords.keep}
        </Press>
      ) : (
        <Surprise
          atFault={answer.contradicted}
          surprise={answer.surprise}
          reading_g={reading_g}
          unit={unit}
          isBusy={isBusy}
          onAnswer={({ kind }) => {
            if (kind === 'take') tell((id) => ask(id, true))
            else again()
          }}
        />
      )}
    </form>
  )
}
