import { useMutation, useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useEffect, useRef, useState } from 'react'
import { ProgressBar } from 'react-aria-components'
import type { MatchJson, WaitingTellJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { useSending } from '../api/use-sending.ts'
import { ChoiceField } from '../field/choice-field.tsx'
import { Press } from '../field/press.tsx'
import { useChoices } from '../look/choices.tsx'
import { Failure, Said } from '../look/said.tsx'
import { useRunning } from '../running/use-running.ts'
import { planWords } from '../strings/plan-words.ts'
import { AboutDuty } from './about-duty.tsx'
import { AskedList } from './asked-list.tsx'
import { type AskedMatch, asItIs, requestOfAsked } from './asked-match.ts'
import { PlanDrawn } from './plan-drawn.tsx'
import styles from './slate.module.css'

/** A plan, and when it was found, ms since 1970: its hours count from there. */
interface PlanFound {
  readonly plan: MatchJson
  readonly at: number
}

/** Why a search ended that a person stopped. */
class Stopped extends Error {}

/** Which reel is to do which waiting print, and what it would be otherwise. */
export function MatchPart({
  waiting,
}: {
  /** As they are listed; at least one. */
  readonly waiting: readonly WaitingTellJson[]
}): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const { unit } = useChoices()
  const [asked, setAsked] = useState(asItIs)
  const [done, setDone] = useState(0)
  /** Stays while the next is looked for. */
  const [found, setFound] = useState<PlanFound | null>(null)
  const plan = found?.plan ?? null
  /** Of the search that runs; null where none does. */
  const control = useRef<AbortController | null>(null)
  const matching = useMutation({
    mutationFn: async (wished: AskedMatch) => {
      const own = new AbortController()
      control.current = own
      setDone(0)
      try {
        const next = await api.match(requestOfAsked(wished), {
          onProgress: (share) => {
            if (control.current === own) setDone(share)
          },
          signal: own.signal,
        })
        // The search asked for last stands, whichever ends last.
        if (control.current === own) setFound({ plan: next, at: Date.now() })
      } finally {
        // One that has ended is not to be stopped any more.
        if (control.current === own) control.current = null
      }
    },
  })
  const stop = (): void => control.current?.abort(new Stopped(planWords.stopped))
  // Nobody waits for it on another sheet.
  useEffect(() => () => control.current?.abort(), [])
  const keeping = useSending({
    mutationFn: (kept: MatchJson) =>
      api.keepPlan(
        kept.copies.flatMap(({ waiting: id, copy, printer, duties }) =>
          printer === null
            ? []
            : duties.map(({ tool, reel, after_layer }) => ({
                waiting: id,
                copy,
                tool,
                reel,
                printer,
                ...(after_layer > 0 && { after_layer }),
              })),
        ),
      ),
    onSuccess: () => queries.invalidateQueries(),
  })
  const ask = (wished: AskedMatch): void => {
    stop()
    setAsked(wished)
    keeping.reset()
    matching.mutate(wished)
  }
  const names = new Map(waiting.map(({ row }) => [row.id, row.name]))
  const running = useRunning()
  const isBusy = matching.isPending
  const isImagined = plan?.reels.some((one) => one.imagined && one.duties.length > 0) === true
  return (
    <section className={styles['match']} aria-labelledby="match-title">
      <h2 id="match-title" className={styles['title']}>
        {planWords.title}
      </h2>
      <p className={styles['soft']}>{planWords.lead}</p>
      {running.flatMap(({ draw, file, waits, changes }) =>
        waits || changes.length > 0 ? (
          <p key={draw} role="status">
            {waits ? planWords.startNotCounted(file) : planWords.changeNotCounted(file)}
          </p>
        ) : (
          []
        ),
      )}
      <div className={`${styles['presses']} ${styles['tools']}`}>
        <ChoiceField
          label={planWords.sureTo}
          words={planWords.confidences}
          value={String(asked.confidence)}
          onChange={(confidence) => {
            const wished = { ...asked, confidence: Number(confidence) }
            if (plan === null) setAsked(wished)
            else ask(wished)
          }}
        />
        <Press main={plan === null} isWaiting={isBusy} onPress={() => ask(asked)}>
          {plan === null ? planWords.match : planWords.again}
        </Press>
      </div>
      {isBusy ? (
        <div className={styles['progress']}>
          <ProgressBar aria-label={planWords.matching(done)} value={100 * done}>
            {({ percentage = 0 }) => (
              <>
                <p>{planWords.matching(done)}</p>
                <svg width="100%" height="14" aria-hidden="true">
                  <rect y="6" width="100%" height="2" fill="var(--hairline)" />
                  <rect y="4" width={`${percentage}%`} height="6" fill="var(--ink)" />
                </svg>
              </>
            )}
          </ProgressBar>
          <Press onPress={stop}>{planWords.stopMatch}</Press>
        </div>
      ) : null}
      {matching.error === null ? null : matching.error instanceof Stopped ? (
        <p role="status">{matching.error.message}</p>
      ) : (
        <p role="alert">
          <Failure of={matching.error} />
        </p>
      )}
      {found === null || plan === null ? null : (
        <div className={styles['plan']} aria-busy={isBusy}>
          <p role="status" className={styles['outcome']}>
            {planWords.outcome(plan, unit)}{' '}
            <span className={styles['soft']}>{planWords.gap(plan, unit)}</span>
          </p>
          {plan.notes.map((note) => (
            <p key={note} className={styles['soft']}>
              <Said>{note}</Said>
            </p>
          ))}
          <AskedList
            asked={asked}
            nameOf={(id) => names.get(id) ?? id}
            isBusy={isBusy}
            onAsk={ask}
          />
          <PlanDrawn
            plan={plan}
            at={found.at}
            order={waiting.map(({ row }) => row.id)}
            unit={unit}
            about={(duty) => (
              <AboutDuty
                key={`${duty.mark} ${duty.reel}`}
                duty={duty}
                reels={plan.reels}
                asked={asked}
                isBusy={isBusy}
                onAsk={ask}
              />
            )}
          />
          <div className={`${styles['presses']} ${styles['tools']}`}>
            <Press
              main
              isDisabled={isBusy || isImagined || keeping.isPending}
              onPress={() => keeping.mutate(plan)}
            >
              {planWords.keepPlan}
            </Press>
            <Press onPress={() => print()}>{planWords.workSheet}</Press>
            <span role="status">{keeping.isSuccess ? planWords.keptPlan : ''}</span>
          </div>
          {keeping.error === null ? null : (
            <p role="alert">
              <Failure of={keeping.error} />
            </p>
          )}
        </div>
      )}
    </section>
  )
}
