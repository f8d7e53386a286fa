import { type FormEvent, type ReactNode, useState } from 'react'
import type { MeasuredJson, PutRightRequest } from '../../contract/index.ts'
import { isDoubtStated } from '../../units/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { useApi } from '../api/use-api.ts'
import { goToUnread } from '../field/go-to-unread.ts'
import { PickReel } from '../field/pick-of.tsx'
import { Press } from '../field/press.tsx'
import { LengthField, MassField } from '../field/quantity-field.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { WordsField } from '../field/words-field.tsx'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { WhatBecame } from '../recorded/what-became.tsx'
import { recordWords } from '../strings/record-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import { Surprise, type SurpriseAnswer } from '../weighing/surprise.tsx'
import styles from './putting-right.module.css'

type Right = 'nothing' | 'mass' | 'length' | 'reel'

/** What of a fact of its kind can be another. */
const rightsOf: Readonly<Record<string, readonly Right[]>> = {
  weighed: ['mass', 'reel', 'nothing'],
  'carrier-weighed': ['mass', 'nothing'],
  drew: ['nothing', 'length', 'reel'],
  trimmed: ['mass', 'length', 'reel', 'nothing'],
  measured: ['nothing', 'reel'],
  emptied: ['nothing', 'reel'],
  'ran-dry': ['nothing', 'reel'],
  dried: ['nothing', 'reel'],
  moved: ['nothing', 'reel'],
  retired: ['nothing', 'reel'],
}

/** Says that a fact does not hold, and what holds in its place; then what became of the reels. */
export function PutRightForm({
  fact,
  unit,
  onClose,
}: {
  readonly fact: { readonly id: string; readonly kind: string; readonly what: string }
  readonly unit: MassUnit
  readonly onClose: () => void
}): ReactNode {
  const api = useApi()
  const rights = rightsOf[fact.kind] ?? ['nothing']
  const isWeighing = fact.kind === 'weighed' || fact.kind === 'carrier-weighed'
  const [id, setId] = useState(newFactId)
  const [right, setRight] = useState<Right>(rights[0] ?? 'nothing')
  const [reason, setReason] = useState('')
  const [mass, setMass] = useState<MeasuredJson | null>(null)
  const [length, setLength] = useState<MeasuredJson | null>(null)
  const [reel, setReel] = useState<string | null>(null)
  const posting = usePosting((told: PutRightRequest) => api.putRight(told))
  const { answer, isBusy, post } = posting
  const figure: Partial<PutRightRequest> | null = {
    nothing: {},
    mass: mass && { mass_g: mass },
    length: length && { length_mm: length },
    reel: reel === null ? null : { reel },
  }[right]
  const told = (more: Partial<PutRightRequest> = {}): PutRightRequest => ({
    id,
    fact: fact.id,
    reason: reason.trim(),
    ...figure,
    ...more,
  })
  if (answer?.recorded === true) {
    return (
      <div className={styles['form']}>
        <WhatBecame answer={answer} unit={unit} />
        <Press onPress={onClose}>{recordWords.done}</Press>
      </div>
    )
  }
  const settle = (given: SurpriseAnswer): void => {
    // What is told now is another fact.
    const anew = newFactId()
    setId(anew)
    if (given.kind === 'take') post(told({ id: anew, accept: true }))
    else if (given.kind === 'reel') post(told({ id: anew, reel: given.reel }))
    else if (given.kind === 'figure')
      post(told({ id: anew, mass_g: { value: given.reading_g, u: 0 } }))
    else posting.forget()
  }
  /** How fine a scale shows is known of it; of a piece cut off, what the figures leave. */
  const doubt = ({ u }: MeasuredJson, typed: string): number =>
    isWeighing && !isDoubtStated(typed) ? 0 : u
  const isReady = figure !== null && reason.trim() !== ''
  return (
    <form
      className={styles['form']}
      aria-label={recordWords.putRightOf(fact.what)}
      onSubmit={(event: FormEvent<HTMLFormElement>) => {
        event.preventDefault()
        if (goToUnread(event.currentTarget)) return
        if (isReady) post(told())
      }}
    >
      {rights.length === 1 ? null : (
        <WordChoice<string>
          label={recordWords.isWrong}
          words={Object.fromEntries(rights.map((one) => [one, recordWords.rights[one]]))}
          value={right}
          onChange={(next) => setRight(next as Right)}
        />
      )}
      {right === 'mass' ? (
        <MassField
          label={recordWords.rightMass}
          hint={recordWords.massHint}
          onValue={(value, typed) =>
            setMass(value && { value: value.value, u: doubt(value, typed) })
          }
        />
      ) : null}
      {right === 'length' ? (
        <LengthField
          bare="m"
          label={recordWords.rightLength}
          hint={recordWords.lengthHint}
          onValue={(value) => setLength(value)}
        />
      ) : null}
      {right === 'reel' ? (
        <PickReel
          label={recordWords.rightReel}
          hint={recordWords.reelHint}
          all
          value={reel}
          onChange={setReel}
        />
      ) : null}
      <WordsField
        label={recordWords.reason}
        hint={recordWords.reasonExample}
        value={reason}
        onChange={setReason}
      />
      {answer?.surprise == null ? null : (
        <Surprise
          atFault={answer.contradicted}
          surprise={answer.surprise}
          reading_g={answer.surprise.expected_g.value + answer.surprise.off_g}
          unit={unit}
          isBusy={isBusy}
          onAnswer={settle}
        />
      )}
      <Refused posting={posting} onAnyway={() => post(told({ accept: true }))} />
      <div className={styles['presses']}>
        <Press type="submit" isDisabled={!isReady || isBusy}>
          {recordWords.write}
        </Press>
        <Press onPress={onClose}>{recordWords.notNow}</Press>
      </div>
    </form>
  )
}
