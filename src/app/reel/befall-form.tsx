import { type FormEvent, type ReactNode, useState } from 'react'
import type { EventRequest, RecordedJson } from '../../contract/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { useApi } from '../api/use-api.ts'
import type { Befalling } from '../befalling/befalling.ts'
import { useDried } from '../befalling/use-dried.tsx'
import { useMoved } from '../befalling/use-moved.tsx'
import { useTrimmed } from '../befalling/use-trimmed.tsx'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { WordsField } from '../field/words-field.tsx'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { WhatBecame } from '../recorded/what-became.tsx'
import { befallWords } from '../strings/befall-words.ts'
import { recordWords } from '../strings/record-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import styles from './reel.module.css'

type Kind = keyof typeof reelWords.events

/** What befell a reel and needs no more than saying so: moved, dried, trimmed, emptied, retired. */
export function BefallForm({
  reel,
  material,
  unit,
}: {
  readonly reel: string
  /** Where it is known. */
  readonly material: string | null
  readonly unit: MassUnit
}): ReactNode {
  const [id, setId] = useState(newFactId)
  const [kind, setKind] = useState<Kind>('moved')
  const [answer, setAnswer] = useState<RecordedJson | null>(null)
  if (answer !== null) {
    return (
      <div className={styles['befall']}>
        <WhatBecame answer={answer} unit={unit} />
        <Press
          onPress={() => {
            setAnswer(null)
            setId(newFactId())
          }}
        >
          {recordWords.done}
        </Press>
      </div>
    )
  }
  return (
    <div className={styles['befall']}>
      <WordChoice
        label={reelWords.itWas}
        words={reelWords.events}
        value={kind}
        onChange={setKind}
      />
      {/* Another kind begins with nothing told, as its fields do. */}
      <FieldsOfKind
        key={kind}
        id={id}
        reel={reel}
        kind={kind}
        material={material}
        onRecorded={setAnswer}
      />
    </div>
  )
}

/** The fields of one kind, and the press that writes down what stands in them. */
function FieldsOfKind({
  id,
  reel,
  kind,
  material,
  onRecorded,
}: {
  /** Of the fact that it becomes. */
  readonly id: string
  readonly reel: string
  readonly kind: Kind
  readonly material: string | null
  readonly onRecorded: (answer: RecordedJson) => void
}): ReactNode {
  const api = useApi()
  const [reason, setReason] = useState('')
  const [isAsked, setAsked] = useState(false)
  const befalling: Readonly<Record<Kind, Befalling>> = {
    moved: useMoved(),
    dried: useDried(material),
    trimmed: useTrimmed(),
    emptied: {
      fields: <p>{befallWords.emptiedMeans}</p>,
      event: { kind: 'emptied' },
      missing: null,
    },
    retired: {
      fields: <WordsField label={befallWords.retiredWhy} value={reason} onChange={setReason} />,
      event: { kind: 'retired', ...(reason.trim() !== '' && { reason: reason.trim() }) },
      missing: null,
    },
  }
  const { fields, event, missing } = befalling[kind]
  const posting = usePosting((told: EventRequest) => api.event(told), { of: event, onRecorded })
  return (
    <form
      className={styles['befall']}
      onSubmit={(submitted: FormEvent<HTMLFormElement>) => {
        submitted.preventDefault()
        if (goToUnread(submitted.currentTarget)) return
        setAsked(true)
        if (event !== null) posting.post({ id, reel, event })
      }}
    >
      {fields}
      {isAsked && missing !== null ? <p role="alert">{missing}</p> : null}
      <Refused posting={posting} />
      <Press type="submit" isDisabled={posting.isBusy}>
        {recordWords.write}
      </Press>
    </form>
  )
}
