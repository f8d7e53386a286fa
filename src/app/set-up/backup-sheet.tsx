import { useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useRef, useState } from 'react'
import { FileTrigger, ProgressBar } from 'react-aria-components'
import { useLocation } from 'wouter'
import { useHistoryState } from 'wouter/use-browser-location'
import type { KeptJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { Press } from '../field/press.tsx'
import { Said } from '../look/said.tsx'
import { sayFailure } from '../strings/say-failure.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import { Download } from './download.tsx'
import { PartFrame } from './part-frame.tsx'
import styles from './set-up.module.css'

type State =
  | { readonly kind: 'none' }
  | { readonly kind: 'sending'; readonly file: File; readonly sent: number }
  | { readonly kind: 'asking'; readonly file: File; readonly holds: KeptJson }
  | { readonly kind: 'restored' }
  | { readonly kind: 'left' }
  | { readonly kind: 'refused'; readonly file: File; readonly why: string }

/** What was put in the place of the ledger. */
interface Restored {
  /** Name of the file. */
  readonly name: string
  /** Where what stood there is kept. */
  readonly kept: string | null
}

/** The ledger in one file, out and in. */
export function BackupSheet(): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const [, navigate] = useLocation()
  const restored = useHistoryState<Restored | null>()
  const [state, setState] = useState<State>({ kind: 'none' })
  const sending = useRef<AbortController | null>(null)

  const send = async (file: File, isDryRun: boolean): Promise<void> => {
    const stop = new AbortController()
    sending.current = stop
    setState({ kind: 'sending', file, sent: 0 })
    try {
      const kept = await api.restore(file, {
        isDryRun,
        signal: stop.signal,
        onSent: (sent) => setState({ kind: 'sending', file, sent: Math.min(sent, file.size) }),
      })
      if (isDryRun) return setState({ kind: 'asking', file, holds: kept })
      // Another ledger stands here now, and every sheet is drawn anew: what was done goes with the address.
      navigate('/set-up/backup', { replace: true, state: { name: file.name, kept: kept.kept } })
      setState({ kind: 'restored' })
      await queries.resetQueries()
    } catch (error) {
      if (stop.signal.aborted) setState({ kind: 'left' })
      else setState({ kind: 'refused', file, why: sayFailure(error) })
    }
  }

  return (
    <PartFrame part="backup">
      <section className={styles['section']}>
        <h2>{setUpWords.backUp}</h2>
        <p>{setUpWords.backUpLead}</p>
        <Download href="/api/backup">{setUpWords.backUpGet}</Download>
      </section>
      <section className={styles['section']}>
        <h2>{setUpWords.restore}</h2>
        <p>{setUpWords.restoreLead}</p>
        {state.kind === 'sending' ? (
          <Sending file={state.file} sent={state.sent} onStop={() => sending.current?.abort()} />
        ) : state.kind === 'asking' ? (
          <section aria-label={setUpWords.restoreAsk(state.file.name)} className={styles['ask']}>
            <p role="status">
              <b>{setUpWords.restoreAsk(state.file.name)}</b>{' '}
              {setUpWords.restoreHolds(state.holds.facts, state.holds.rows, state.holds.prints)}
            </p>
            <p className={styles['presses']}>
              <Press main onPress={() => void send(state.file, false)}>
                {setUpWords.restoreYes}
              </Press>
              <Press autoFocus onPress={() => setState({ kind: 'left' })}>
                {setUpWords.restoreNo}
              </Press>
            </p>
          </section>
        ) : (
          <FileTrigger
            onSelect={(files) => {
              const file = files?.[0]
              if (file !== undefined) void send(file, true)
            }}
          >
            <Press autoFocus={state.kind !== 'none'}>{setUpWords.restoreChoose}</Press>
          </FileTrigger>
        )}
        <p role="status" className={styles['said']}>
          {state.kind === 'left' ? setUpWords.restoreLeft : null}
          {restored !== null && (state.kind === 'none' || state.kind === 'restored') ? (
            <>
              {setUpWords.restored(restored.name)}{' '}
              {restored.kept === null ? null : (
                <>
                  {setUpWords.restoredKept('')}
                  <code>{restored.kept}</code>
                </>
              )}
            </>
          ) : null}
        </p>
        {state.kind === 'refused' ? (
          <p role="alert" className={styles['refused']}>
            {setUpWords.restoreRefused(state.file.name)}: <Said>{state.why}</Said>
          </p>
        ) : null}
      </section>
    </PartFrame>
  )
}

const Sending = ({
  file: { name, size },
  sent,
  onStop,
}: {
  readonly file: File
  readonly sent: number
  readonly onStop: () => void
}): ReactNode => {
  const isSent = sent >= size
  const what = isSent ? setUpWords.restoreChecking(name) : setUpWords.restoreSending(name)
  return (
    <div className={styles['sending']}>
      <ProgressBar aria-label={what} value={size === 0 ? 0 : (100 * sent) / size}>
        {({ percentage = 0 }) => (
          <>
            <p role="status">{what}</p>
            <svg width="100%" height="14" aria-hidden="true">
              <rect y="6" width="100%" height="2" fill="var(--hairline)" />
              <rect y="4" width={`${percentage}%`} height="6" fill="var(--ink)" />
            </svg>
            <p className={styles['soft']}>{setUpWords.restoreBytes(sent, size)}</p>
          </>
        )}
      </ProgressBar>
      {/* Sent, the file is the server's to put in place: nothing here could stop it. */}
      <Press isDisabled={isSent} onPress={onStop}>
        {setUpWords.cancel}
      </Press>
    </div>
  )
}
