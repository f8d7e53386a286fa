import { useQueryClient } from '@tanstack/react-query'
import { type FormEvent, type ReactNode, useRef, useState } from 'react'
import { Link } from 'wouter'
import { type CheckJson, hotMachineCaution } from '../../contract/index.ts'
import type { PrintToCheck, ReelOfTool } from '../api/api.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { printId } from '../api/print-id.ts'
import { asksToLogIn, OutOfTouch } from '../api/problem-fault.ts'
import { useApi } from '../api/use-api.ts'
import { useSending } from '../api/use-sending.ts'
import { type StartAtHand, startTold } from '../check/use-start.ts'
import { ChoiceField } from '../field/choice-field.tsx'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { WordsField } from '../field/words-field.tsx'
import { Failure } from '../look/said.tsx'
import { recordWords } from '../strings/record-words.ts'
import styles from './running.module.css'
import { endHere, isRunningKept, startHere } from './running-here.ts'
import { keptOfReading, toMinute } from './running-print.ts'
import { toldAtStart } from './told-at-start.ts'
import type { PrinterAtHand } from './use-printer.ts'
import { useIsLost, useRunning, useSent } from './use-running.ts'

/** Starts the print at hand on the reels at hand: it runs until it is said what became of it. */
export function RecordBar({
  print,
  reels,
  at,
  startAt,
  check,
  isPlanned,
  isSure,
  isAwaited,
  onStart,
}: {
  readonly print: PrintToCheck
  readonly reels: readonly ReelOfTool[]
  readonly at: PrinterAtHand
  /** When it is, or was, started. */
  readonly startAt: StartAtHand
  /** What is told of it on these reels; null while that is not known. */
  readonly check: CheckJson | null
  /** False while its times are those of another printer. */
  readonly isPlanned: boolean
  /** True where the reels are enough: then it is what the sheet is about. */
  readonly isSure: boolean
  /** True while the answer for these reels is not there yet: nothing is started without it. */
  readonly isAwaited: boolean
  /** Told that it is started on these reels. */
  readonly onStart: () => void
}): ReactNode {
  const api = useApi()
  const said = useRef<HTMLParagraphElement>(null)
  const running = useRunning()
  const sent = useSent()
  const isLost = useIsLost()
  const [hasAdded, setAdded] = useState(false)
  const { printer, printers, firmware, families } = at
  const lacksPrinter = printer === null && at.isKnown
  /** Until it is told what became of it, it is not started there again. */
  const same = running.find(
    (one) =>
      one.print === printId(print) &&
      reels.every(({ tool, reel }) =>
        one.reels.some((each) => each.tool === tool && each.reel === reel),
      ),
  )
  const isRunning = same !== undefined
  const start = useSending({
    // The press lets go of the keys: who goes by them hears what became of it.
    onSuccess: () => {
      startAt.forget()
      said.current?.focus()
    },
    mutationFn: async () => {
      if (printer === null) return
      const started = startTold(startAt, Date.now())
      // Its field, which says why itself, may be gone with the answer.
      if (!started.ok) throw new Error(started.refusal.message)
      const draw = newFactId()
      startHere({
        draw,
        // What was answered for it was asked with it: the server has it, though it is out of touch now.
        print: await api.keepPrint(print).catch((error: unknown) => {
          if (error instanceof OutOfTouch || asksToLogIn(error)) return printId(print)
          throw error
        }),
        file: print.member ?? print.name,
        started_at: toMinute(started.value),
        reels: reels.map(({ tool, reel }) => ({ tool, reel })),
        printer: printer.id,
        ...(firmware !== null && { firmware }),
        ...(check && toldAtStart(check, isPlanned)),
        ...keptOfReading(
          print.reading,
          reels.map(({ tool }) => tool),
        ),
      })
      await sent(draw, () => endHere(draw))
    },
  })
  return (
    <section className={styles['bar']} aria-label={recordWords.bar}>
      <h2>{recordWords.bar}</h2>
      {printers.length > 1 ? (
        <ChoiceField
          label={recordWords.printer}
          words={printers.map(({ id, name }) => [id, name])}
          value={printer?.id ?? ''}
          onChange={at.choose}
        />
      ) : null}
      {families.length > 1 ? (
        <ChoiceField
          label={recordWords.firmware}
          words={[['', recordWords.anyFirmware], ...families.map((id) => [id, id] as const)]}
          value={firmware ?? ''}
          onChange={at.chooseFirmware}
        />
      ) : null}
      {lacksPrinter ? (
        <NewPrinter onAdded={() => setAdded(true)} />
      ) : (
        <Press
          main={isSure}
          autoFocus={hasAdded}
          isDisabled={
            start.isPending || isRunning || isAwaited || printer === null || reels.length === 0
          }
          onPress={() => {
            if (isRunning) return
            // A start that can not be read must not be told as now in silence.
            const { current: field } = startAt.box
            if (field !== null && goToUnread(field)) return
            onStart()
            start.mutate()
          }}
        >
          {recordWords.start(reels)}
        </Press>
      )}
      <Link href="/slate?add" className={styles['way']}>
        {recordWords.onSlate}
      </Link>
      {running
        .filter((one) => one.reels.some(({ reel }) => reels.some((each) => each.reel === reel)))
        .map((one) => (
          <p key={one.draw}>{recordWords.busy(one.file, one.reels)}</p>
        ))}
      {start.error === null ? null : (
        <p role="alert">
          <Failure of={start.error} />
        </p>
      )}
      <p ref={said} tabIndex={-1} role="status" className={styles['soft']}>
        {same === undefined
          ? ''
          : !same.waits
            ? recordWords.started
            : isRunningKept()
              ? isLost
                ? recordWords.startWaits
                : ''
              : recordWords.notKept}
      </p>
      {running.length > 0 ? null : <p className={styles['soft']}>{hotMachineCaution}</p>}
    </section>
  )
}

function NewPrinter({ onAdded }: { readonly onAdded: () => void }): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const [name, setName] = useState('')
  const { mutate, isPending, error } = useSending({
    mutationFn: () => api.addRow('printer', { name: name.trim() }),
    onSuccess: () => {
      onAdded()
      return queries.invalidateQueries({ queryKey: ['rows', 'printer'] })
    },
  })
  return (
    <form
      className={styles['newPrinter']}
      onSubmit={(event: FormEvent<HTMLFormElement>) => {
        event.preventDefault()
        if (!isPending && name.trim() !== '') mutate()
      }}
    >
      <WordsField label={recordWords.noPrinter} value={name} onChange={setName} />
      <Press type="submit" isDisabled={name.trim() === ''} isWaiting={isPending}>
        {recordWords.addPrinter}
      </Press>
      {error === null ? null : (
        <p role="alert">
          <Failure of={error} />
        </p>
      )}
    </form>
  )
}
