import { type FormEvent, type ReactNode, useState } from 'react'
import type { EventRequest, EventToldJson, MeasuredJson } from '../../contract/index.ts'
import { dryingCautions } from '../../filament/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { useApi } from '../api/use-api.ts'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { MassField, QuantityField } from '../field/quantity-field.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { WordsField } from '../field/words-field.tsx'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { WhatBecame } from '../recorded/what-became.tsx'
import { recordWords } from '../strings/record-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import { parsePlain } from './parse-plain.ts'
import styles from './reel.module.css'

type Kind = keyof typeof reelWords.events

/** What befell a reel and needs no more than saying so: moved, dried, trimmed, emptied, retired. */
export function BefallForm({
  reel,
  unit,
}: {
  readonly reel: string
  readonly unit: MassUnit
}): ReactNode {
  const api = useApi()
  const [id, setId] = useState(newFactId)
  const [kind, setKind] = useState<Kind>('moved')
  const [place, setPlace] = useState('')
  const [air, setAir] = useState<keyof typeof reelWords.airs>('same')
  const [reason, setReason] = useState('')
  const [temperature, setTemperature] = useState<number | null>(null)
  const [hours, setHours] = useState<number | null>(null)
  const [mass, setMass] = useState<MeasuredJson | null>(null)
  const posting = usePosting((told: EventRequest) => api.event(told))
  const { answer, isBusy, post } = posting
  const told: Readonly<Record<Kind, EventToldJson | null>> = {
    moved:
      place.trim() === ''
        ? null
        : { kind: 'moved', place: place.trim(), ...(air !== 'same' && { air }) },
    dried: {
      kind: 'dried',
      ...(temperature !== null && { temperature_c: temperature }),
      ...(hours !== null && { hours }),
    },
    trimmed: mass && { kind: 'trimmed', mass_g: mass },
    emptied: { kind: 'emptied' },
    retired: { kind: 'retired', ...(reason.trim() !== '' && { reason: reason.trim() }) },
  }
  const event = told[kind]
  const write = (more: Partial<EventRequest> = {}): void => {
    if (event !== null) post({ id, reel, event, ...more })
  }
  if (answer !== null) {
    return (
      <div className={styles['befall']}>
        <WhatBecame answer={answer} unit={unit} />
        <Press
          onPress={() => {
            posting.forget()
            setId(newFactId())
          }}
        >
          {recordWords.done}
        </Press>
      </div>
    )
  }
  return (
    <form
      className={styles['befall']}
      onSubmit={(submitted: FormEvent<HTMLFormElement>) => {
        submitted.preventDefault()
        if (goToUnread(submitted.currentTarget)) return
        write()
      }}
    >
      <WordChoice
        label={reelWords.itWas}
        words={reelWords.events}
        value={kind}
        onChange={(next) => {
          setKind(next)
          posting.forget()
        }}
      />
      {kind === 'moved' ? (
        <>
          <WordsField label={reelWords.place} value={place} onChange={setPlace} />
          <WordChoice label={reelWords.air} words={reelWords.airs} value={air} onChange={setAir} />
        </>
      ) : null}
      {kind === 'dried' ? (
        <>
          <ul className={styles['caution']}>
            {dryingCautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
          <QuantityField
            key="temperature"
            label={reelWords.temperature}
            parse={parsePlain(200)}
            onValue={(value) => setTemperature(value?.value ?? null)}
          />
          <QuantityField
            key="hours"
            label={reelWords.hours}
            parse={parsePlain(1000)}
            onValue={(value) => setHours(value?.value ?? null)}
          />
        </>
      ) : null}
      {kind === 'trimmed' ? (
        <MassField
          label={reelWords.cutOff}
          hint={reelWords.cutOffHint}
          onValue={(value) => setMass(value)}
        />
      ) : null}
      {kind === 'emptied' ? <p>{reelWords.emptiedMeans}</p> : null}
      {kind === 'retired' ? (
        <WordsField label={reelWords.retiredWhy} value={reason} onChange={setReason} />
      ) : null}
      <Refused posting={posting} onAnyway={() => write({ accept: true })} />
      <Press type="submit" isDisabled={event === null || isBusy}>
        {recordWords.write}
      </Press>
    </form>
  )
}
