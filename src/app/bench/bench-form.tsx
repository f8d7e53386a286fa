import { type ReactNode, useEffect, useRef, useState } from 'react'
import type { RecordedJson } from '../../contract/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { useChoices } from '../look/choices.tsx'
import { RightAtOnce } from '../putting-right/right-at-once.tsx'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { benchWords } from '../strings/bench-words.ts'
import { Surprise } from '../weighing/surprise.tsx'
import styles from './bench.module.css'
import { ChangedReels } from './changed-reels.tsx'

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
  of,
  after,
  onAgain,
}: {
  readonly children: ReactNode
  /** What is still to be told before it can be written down. */
  readonly missing: string | null
  readonly ask: (id: string, accept: boolean) => Promise<RecordedJson>
  /** What `ask` tells, where that may be doubted; as in `PostingOptions`. */
  readonly of?: unknown
  /** Stands in the place of what changed. */
  readonly after?: (answer: RecordedJson) => ReactNode
  readonly onAgain: () => void
}): ReactNode {
  const { unit } = useChoices()
  const [id] = useState(newFactId)
  const posting = usePosting(
    (told: { readonly id: string; readonly accept?: boolean }) =>
      ask(told.id, told.accept === true),
    { of },
  )
  const { answer, isBusy, waits } = posting
  const [isAsked, setAsked] = useState(false)
  const head = useRef<HTMLHeadingElement>(null)
  const isKept = answer?.recorded === true || waits !== null
  useEffect(() => {
    if (isKept) head.current?.focus()
  }, [isKept])
  if (isKept) {
    return (
      <div role="status">
        <h3 ref={head} tabIndex={-1} className={styles['kept']}>
          {waits === null ? benchWords.kept : benchWords.waits}
        </h3>
        {answer === null ? (
          <p>{waits}</p>
        ) : (
          (after?.(answer) ?? <ChangedReels answer={answer} unit={unit} />)
        )}
        {answer === null ? null : (
          <RightAtOnce facts={answer.facts} unit={unit} onClose={onAgain} />
        )}
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
        if (missing === null) posting.post({ id })
      }}
    >
      {children}
      {isAsked && missing !== null ? (
        <p role="alert" className={styles['refused']}>
          {missing}
        </p>
      ) : null}
      <Refused posting={posting} />
      {answer === null ? (
        <Press main type="submit" isDisabled={isBusy}>
          {benchWords.keep}
        </Press>
      ) : (
        <Surprise posting={posting} unit={unit} canRestate={false} />
      )}
    </form>
  )
}
