import { type ReactNode, useEffect, useRef, useState } from 'react'
import type { MeasuredJson, WeighingTellJson, WeighRequest } from '../../contract/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { useApi } from '../api/use-api.ts'
import { useScaleChoice } from '../bench/use-scale-choice.ts'
import { ChoiceField } from '../field/choice-field.tsx'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { useChoices } from '../look/choices.tsx'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { WhatBecame } from '../recorded/what-became.tsx'
import { checkWords } from '../strings/check-words.ts'
import { BesideField, withBeside } from '../weighing/beside-field.tsx'
import { Surprise } from '../weighing/surprise.tsx'
import { WeighingField } from '../weighing/weighing-field.tsx'
import styles from './check.module.css'

/** A pause as long as this ends a figure, ms: each one asked about is a reckoning. */
const pause = 250

/** What the scale shows with a reel, tried before it is kept: the verdict follows. */
export function WeighField({
  reel,
  isOpen,
  onWeighing,
}: {
  readonly reel: string
  /** False where nothing is to be settled: only what was just kept is shown. */
  readonly isOpen: boolean
  /** Told a weighing after a pause; null where there is none. */
  readonly onWeighing: (weighing: WeighingTellJson | null) => void
}): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const { isKnown, scales, scale, setScale } = useScaleChoice()
  const [shown, setShown] = useState<WeighingTellJson | null>(null)
  const [beside, setBeside] = useState<MeasuredJson | null>(null)
  const [isUnread, setUnread] = useState(false)
  const [touched, setTouched] = useState(false)
  const [id, setId] = useState(newFactId)
  const weighing = withBeside(shown && { ...shown, ...(scale !== null && { scale }) }, beside)
  // Before it is known what stands beside it the reading is not the reel's.
  const tried = isUnread ? null : weighing
  // What is kept, or left out, leaves an empty field behind, and the next is another fact.
  const begin = (): void => {
    setShown(null)
    setBeside(null)
    setUnread(false)
    setId(newFactId())
    onWeighing(null)
  }
  const posting = usePosting((told: WeighRequest) => api.weigh(told), {
    of: weighing,
    onRecorded: begin,
    onWaits: begin,
  })
  const { answer, waits, isBusy, post } = posting
  const line = useRef<HTMLDivElement>(null)
  const keep = (): void => {
    const isHeld = line.current !== null && goToUnread(line.current)
    if (weighing !== null && !isHeld) post({ id, reel, weighing })
  }
  const isSurprising = answer?.recorded === false
  useEffect(() => {
    if (!touched) return undefined
    const timer = setTimeout(() => onWeighing(tried), pause)
    return () => clearTimeout(timer)
    // Told again only when it is another.
  }, [JSON.stringify(tried), touched])
  return (
    <div className={styles['weigh']}>
      {answer?.recorded === true ? (
        <>
          <p>{checkWords.keptWeighing(answer.facts)}</p>
          <WhatBecame answer={answer} unit={unit} />
        </>
      ) : null}
      {waits === null ? null : <p role="status">{waits}</p>}
      {isOpen ? (
        <>
          <div ref={line} className={styles['weighLine']}>
            <WeighingField
              key={id}
              label={checkWords.weigh(reel)}
              hint={checkWords.weighHint}
              onValue={(told) => {
                if (answer !== null || waits !== null) posting.forget()
                setTouched(true)
                setShown(told)
              }}
            />
            {scales.length > 1 ? (
              <ChoiceField
                label={checkWords.scale}
                words={scales.map(({ id: one, name }) => [one, name])}
                value={scale ?? ''}
                onChange={setScale}
              />
            ) : null}
            <BesideField key={`beside ${id}`} onValue={setBeside} onUnread={setUnread} />
            {weighing === null || isSurprising ? null : (
              <Press isDisabled={isBusy || !isKnown} onPress={keep}>
                {checkWords.keepWeighing}
              </Press>
            )}
          </div>
          <Surprise
            posting={posting}
            unit={unit}
            onLeave={() => {
              posting.forget()
              begin()
            }}
          />
          <Refused posting={posting} />
        </>
      ) : null}
    </div>
  )
}
