import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useEffect, useState } from 'react'
import type { WeighRequest } from '../../contract/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { useApi } from '../api/use-api.ts'
import { ChoiceField } from '../field/choice-field.tsx'
import { Press } from '../field/press.tsx'
import { MassField } from '../field/quantity-field.tsx'
import { useChoices } from '../look/choices.tsx'
import { keep, kept } from '../look/kept.ts'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { WhatBecame } from '../recorded/what-became.tsx'
import { checkWords } from '../strings/check-words.ts'
import { Surprise, type SurpriseAnswer } from '../weighing/surprise.tsx'
import styles from './check.module.css'

/** A pause as long as this ends a figure, ms: each one asked about is a reckoning. */
const pause = 250

/** What the scale shows with a reel, tried before it is kept: the verdict follows. */
export function WeighField({
  reel,
  isOpen,
  onGross,
}: {
  readonly reel: string
  /** False where nothing is to be settled: only what was just kept is shown. */
  readonly isOpen: boolean
  /** Told grams after a pause; null where there is no figure. */
  readonly onGross: (gross_g: number | null) => void
}): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const [gross, setGross] = useState<number | null>(null)
  const [touched, setTouched] = useState(false)
  const [id, setId] = useState(newFactId)
  const [scale, setScale] = useState(() => kept('scale'))
  // A kept figure leaves an empty field behind.
  const [round, setRound] = useState(0)
  const { data } = useQuery({ queryKey: ['rows', 'scale'], queryFn: () => api.rows('scale') })
  const scales = (data?.rows ?? []).flatMap((row) =>
    row.kind === 'scale' && row.retired !== true ? [[row.id, row.name] as const] : [],
  )
  const chosen = scales.find(([one]) => one === scale) ?? scales[0]
  const posting = usePosting(
    (told: WeighRequest) => api.weigh(told),
    () => {
      setGross(null)
      setRound((now) => now + 1)
      setId(newFactId())
      onGross(null)
    },
  )
  const { answer, isBusy, post } = posting
  useEffect(() => {
    if (!touched) return undefined
    const timer = setTimeout(() => onGross(gross), pause)
    return () => clearTimeout(timer)
    // Told again only when the figure is another.
  }, [gross, touched])
  const told = (reading_g: number): WeighRequest => ({
    id,
    reel,
    weighing: { reading_g, ...(chosen !== undefined && { scale: chosen[0] }) },
  })
  const settle = (reading_g: number, given: SurpriseAnswer): void => {
    if (given.kind === 'take') post({ ...told(reading_g), accept: true })
    else if (given.kind === 'reel') post({ ...told(reading_g), reel: given.reel })
    else if (given.kind === 'figure') post(told(given.reading_g))
    else posting.forget()
  }
  const surprise = answer?.recorded === false ? answer.surprise : null
  const shown_g = surprise === null ? 0 : surprise.expected_g.value + surprise.off_g
  return (
    <div className={styles['weigh']}>
      {answer?.recorded === true ? (
        <>
          <p>{checkWords.keptWeighing(answer.facts)}</p>
          <WhatBecame answer={answer} unit={unit} />
        </>
      ) : null}
      {isOpen ? (
        <>
          <div className={styles['weighLine']}>
            <MassField
              key={round}
              label={checkWords.weigh(reel)}
              hint={checkWords.weighHint}
              onValue={(mass) => {
                if (answer !== null || posting.failure !== null) posting.forget()
                setTouched(true)
                setGross(mass?.value ?? null)
              }}
            />
            {scales.length > 1 ? (
              <ChoiceField
                label={checkWords.scale}
                words={scales}
                value={chosen?.[0] ?? ''}
                onChange={(next) => {
                  keep('scale', next)
                  setScale(next)
                }}
              />
            ) : null}
            {gross === null || surprise !== null ? null : (
              <Press isDisabled={isBusy} onPress={() => post(told(gross))}>
                {checkWords.keepWeighing}
              </Press>
            )}
          </div>
          {surprise === null ? null : (
            <Surprise
              atFault={answer?.contradicted ?? []}
              surprise={surprise}
              reading_g={gross ?? shown_g}
              unit={unit}
              isBusy={isBusy}
              onAnswer={(given) => settle(gross ?? shown_g, given)}
            />
          )}
          <Refused posting={posting} />
        </>
      ) : null}
    </div>
  )
}
