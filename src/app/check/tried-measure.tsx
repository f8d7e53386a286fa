import { Fragment, type ReactNode, useEffect, useRef, useState } from 'react'
import type { RecordedJson } from '../../contract/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { useChoices } from '../look/choices.tsx'
import { Said } from '../look/said.tsx'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { WhatBecame } from '../recorded/what-became.tsx'
import { checkWords } from '../strings/check-words.ts'
import { Surprise } from '../weighing/surprise.tsx'
import styles from './check.module.css'

/** A pause as long as this ends a figure, ms: each one asked about is a reckoning. */
const pause = 250

/** What every measurement that can be made in place is given. */
export interface MeasureInPlace<T> {
  readonly reel: string
  /** What it is worth, in a sentence; null where it settles nothing: only what was just kept is shown. */
  readonly about: string | null
  /** True for the one measurement to make. */
  readonly isFirst: boolean
  /** Told it after a pause; null where there is none. */
  readonly onSuppose: (told: T | null) => void
}

/** Fields of a measurement, tried before it is kept: the verdict follows. */
export function TriedMeasure<T>({
  about,
  isFirst,
  value,
  isUnread = false,
  keep,
  ask,
  onSuppose,
  onClear,
  children,
}: Omit<MeasureInPlace<T>, 'reel'> & {
  /** What the fields tell; null while they tell nothing whole. */
  readonly value: T | null
  /** Something of it can not be read yet: nothing is supposed until then. */
  readonly isUnread?: boolean
  /** The press that writes it down. */
  readonly keep: string
  readonly ask: (told: T, id: string, accept: boolean) => Promise<RecordedJson>
  /** Told when the fields begin anew. */
  readonly onClear: () => void
  readonly children: ReactNode
}): ReactNode {
  const { unit } = useChoices()
  const [id, setId] = useState(newFactId)
  const [isOpen, setOpen] = useState<boolean | null>(null)
  const tried = isUnread ? null : value
  const text = JSON.stringify(tried)
  const said = useRef('null')
  const fields = useRef<HTMLDivElement>(null)
  // What is kept leaves empty fields behind, and the next is another fact.
  const begin = (): void => {
    said.current = 'null'
    setId(newFactId())
    onClear()
    onSuppose(null)
  }
  const posting = usePosting(
    (told: { readonly id: string; readonly value: T; readonly accept?: boolean }) =>
      ask(told.value, told.id, told.accept === true),
    { of: value, onRecorded: begin, onWaits: begin },
  )
  const { answer, waits, isBusy, post, forget } = posting
  const write = (): void => {
    const isHeld = fields.current !== null && goToUnread(fields.current)
    if (value !== null && !isHeld) post({ id, value })
  }
  useEffect(() => {
    if (text === said.current) return undefined
    if (tried !== null && (answer !== null || waits !== null)) forget()
    const timer = setTimeout(() => {
      said.current = text
      onSuppose(tried)
    }, pause)
    return () => clearTimeout(timer)
    // Told again only when it is another.
  }, [text])
  return (
    <div className={styles['weigh']}>
      {answer?.recorded === true ? (
        <>
          <p>{checkWords.keptMeasure}</p>
          <WhatBecame answer={answer} unit={unit} />
        </>
      ) : null}
      {waits === null ? null : <p role="status">{waits}</p>}
      {about === null ? null : (
        <details
          open={isOpen ?? isFirst}
          onToggle={(event) => setOpen(event.currentTarget.open)}
          className={styles['way']}
        >
          <summary>
            <Said>{about}</Said>
          </summary>
          <div ref={fields} className={styles['wayFields']}>
            <Fragment key={id}>{children}</Fragment>
            {value === null || answer?.recorded === false ? null : (
              <Press isDisabled={isBusy} onPress={write}>
                {keep}
              </Press>
            )}
          </div>
          <Surprise posting={posting} unit={unit} canRestate={false} />
          <Refused posting={posting} />
        </details>
      )}
    </div>
  )
}
