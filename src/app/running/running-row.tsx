import {
  type FormEvent,
  Fragment,
  lazy,
  type ReactNode,
  Suspense,
  useEffect,
  useRef,
  useState,
} from 'react'
import { Link } from 'wouter'
import type { DrawRequest, RecordedJson, StoppedAtJson } from '../../contract/index.ts'
import { parseDuration } from '../../units/index.ts'
import { ProblemFault } from '../api/problem-fault.ts'
import { useApi } from '../api/use-api.ts'
import { PrintSilhouette } from '../drawing/print-silhouette.tsx'
import { focusEmpty } from '../field/focus-empty.ts'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { QuantityField } from '../field/quantity-field.tsx'
import { TickField } from '../field/tick-field.tsx'
import { Failure, Said } from '../look/said.tsx'
import { useNarrow } from '../look/use-narrow.ts'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { recordWords } from '../strings/record-words.ts'
import { runningWords } from '../strings/running-words.ts'
import { timeWords } from '../strings/time-words.ts'
import { waitingWords } from '../strings/waiting-words.ts'
import styles from './running.module.css'
import { askAgain, leaveOut } from './running-here.ts'
import { pictureOf, type RunningShown, reelsNow } from './running-print.ts'
import { stoppedHeight } from './stopped-height.ts'
import { usePrinterName } from './use-printer-name.ts'
import { useEndRunning, useIsLost, useRunningChange } from './use-running.ts'
import { WhereItStopped } from './where-it-stopped.tsx'

/** Fetched when it is pressed for: a list to pick a reel from is heavier than the sheets it stands on. */
const ChangeRunningReel = lazy(async () => ({
  default: (await import('./change-running-reel.tsx')).ChangeRunningReel,
}))

/** A print that is running, and what may become of it. */
export function RunningRow({
  print,
  onBusy,
  onRecorded,
}: {
  readonly print: RunningShown
  /** Told whenever it begins or ends to be written down what became of it. */
  readonly onBusy: (isBusy: boolean) => void
  readonly onRecorded: (answer: RecordedJson, stopped: StoppedAtJson | null) => void
}): ReactNode {
  const api = useApi()
  const narrow = useNarrow()
  const printer = usePrinterName(print.printer)
  const [failing, setFailing] = useState(false)
  const [changing, setChanging] = useState(false)
  const [stopped, setStopped] = useState<StoppedAtJson | null>(null)
  /** Tools whose reel ran dry there. */
  const [ranDry, setRanDry] = useState<ReadonlySet<number>>(new Set())
  const [took, setTook] = useState<number | null>(null)
  const [hasTurned, setTurned] = useState(false)
  const now = reelsNow(print)
  const end = useEndRunning()
  const isLost = useIsLost()
  const takingBack = useRunningChange(print.draw)
  const told: DrawRequest = {
    id: print.draw,
    print: print.print,
    reels: print.reels.map((one) => ({
      ...one,
      ...(failing && now.includes(one) && ranDry.has(one.tool) && { ran_dry: true }),
    })),
    started_at: print.started_at,
    printer: print.printer,
    ...(print.firmware !== undefined && { firmware: print.firmware }),
    ...(failing && stopped && { stopped_at: stopped }),
    ...(!failing && took !== null && { took_s: took }),
  }
  const posting = usePosting((one: DrawRequest) => api.draw(one), {
    of: told,
    onRecorded: (answer, { stopped_at: at = null }) => {
      onRecorded(answer, at)
      end(print.draw)
    },
  })
  const { isBusy, post, failure } = posting
  const busy = useRef(onBusy)
  useEffect(() => {
    busy.current = onBusy
  })
  useEffect(() => {
    if (isBusy) busy.current(true)
    return isBusy ? () => busy.current(false) : undefined
  }, [isBusy])
  const held = failure instanceof ProblemFault ? failure.problem.code : null
  // What was answered before stays answered.
  const { started_at: _started, ...rest } = posting.told ?? told
  /** To the other form, whose fields are empty: what was typed before is not told. */
  const turnTo = (isFailing: boolean): void => {
    setFailing(isFailing)
    setTurned(true)
    setTook(null)
    setStopped(null)
    posting.forget()
  }
  const height = stoppedHeight(print.layers, stopped)
  return (
    <li className={styles['print']}>
      <p>
        <b className={styles['file']}>
          {recordWords.runningOn(print.file)}{' '}
          {print.reels.map(({ tool, reel, after_layer: after }, place) => (
            <Fragment key={`${tool} ${after ?? 0}`}>
              {place === 0
                ? null
                : after === undefined
                  ? recordWords.and
                  : recordWords.thenOn(after)}
              <Link href={`/reel/${reel}`} className={styles['way']}>
                {reel}
              </Link>
            </Fragment>
          ))}
        </b>{' '}
        <span className={styles['soft']}>
          {recordWords.since(print.started_at, printer, Date.now())}
          {print.takes === undefined
            ? ''
            : `; ${timeWords.endsOf(print.takes, Date.parse(print.started_at), Date.now())}`}
        </span>
      </p>
      {toldNow(print).map((sentence) => (
        <p key={sentence}>
          <Said>{sentence}</Said>
        </p>
      ))}
      {print.waits && isLost ? <p className={styles['soft']}>{recordWords.startWaits}</p> : null}
      {print.asks === undefined ? null : (
        <>
          <p role="alert">{recordWords.startNotTaken(print.asks)}</p>
          <Press onPress={() => askAgain(print.draw)}>{waitingWords.again}</Press>
        </>
      )}
      {print.changes.map(({ id, asks }) =>
        asks === undefined ? (
          <p key={id} className={styles['soft']}>
            {isLost ? recordWords.changeWaits : ''}
          </p>
        ) : (
          <div key={id}>
            <p role="alert">{recordWords.changeNotTaken(asks)}</p>
            <div className={styles['presses']}>
              <Press onPress={() => askAgain(id)}>{waitingWords.again}</Press>
              <Press onPress={() => leaveOut(id)}>{waitingWords.leaveOut}</Press>
            </div>
          </div>
        ),
      )}
      {takingBack.error === null ? null : (
        <p role="alert">
          <Failure of={takingBack.error} />
        </p>
      )}
      {changing ? (
        <Suspense fallback={null}>
          <ChangeRunningReel
            print={print}
            onClose={() => {
              setChanging(false)
              setTurned(true)
            }}
          />
        </Suspense>
      ) : failing ? (
        <form
          ref={focusFirst}
          className={styles['failing']}
          onSubmit={(event: FormEvent<HTMLFormElement>) => {
            event.preventDefault()
            if (goToUnread(event.currentTarget)) return
            if (stopped === null) focusEmpty(event.currentTarget)
            else post(told)
          }}
        >
          <div className={styles['fields']}>
            <WhereItStopped layers={print.layers} onStopped={setStopped} />
            {now.map(({ tool, reel }) => (
              <TickField
                key={tool}
                label={recordWords.ranDry(print.reels.length === 1 ? null : reel)}
                isSo={ranDry.has(tool)}
                onChange={(isSo) =>
                  setRanDry((dry) => new Set([...dry, tool].filter((one) => isSo || one !== tool)))
                }
              />
            ))}
            <div className={styles['presses']}>
              <Press type="submit" main isWaiting={isBusy}>
                {recordWords.write}
              </Press>
              <Press isWaiting={isBusy} onPress={() => turnTo(false)}>
                {recordWords.back}
              </Press>
            </div>
          </div>
          {print.picture === null || height === null ? null : (
            <figure className={styles['picture']}>
              <PrintSilhouette
                silhouette={pictureOf(print.picture)}
                fills={[{ tool: null, colour: null }]}
                reached={height}
                height={narrow ? 180 : 220}
              />
              <figcaption>{recordWords.pictureOf}</figcaption>
            </figure>
          )}
        </form>
      ) : (
        <form
          onSubmit={(event: FormEvent<HTMLFormElement>) => {
            event.preventDefault()
            if (!goToUnread(event.currentTarget)) post(told)
          }}
        >
          <QuantityField
            label={recordWords.took}
            hint={recordWords.tookHint}
            parse={parseDuration}
            onValue={setTook}
          />
          <div className={styles['presses']}>
            <Press type="submit" main isWaiting={isBusy}>
              {recordWords.finished}
            </Press>
            <Press autoFocus={hasTurned} isWaiting={isBusy} onPress={() => turnTo(true)}>
              {recordWords.failed}
            </Press>
            {print.layers.height_mm.length > 1 && !print.layers.spiral ? (
              <Press
                isWaiting={isBusy}
                onPress={() => {
                  posting.forget()
                  setChanging(true)
                }}
              >
                {recordWords.changed}
              </Press>
            ) : null}
            <Press
              isWaiting={isBusy || takingBack.isPending}
              onPress={() => takingBack.mutate({ ended: 'never-ran' })}
            >
              {recordWords.never}
            </Press>
          </div>
        </form>
      )}
      <Refused posting={posting} />
      {held === 'drawn_meanwhile' ? (
        <div className={styles['presses']}>
          <Press
            isWaiting={isBusy || takingBack.isPending}
            onPress={() =>
              takingBack.mutate({ ended: rest.stopped_at === undefined ? 'finished' : 'failed' })
            }
          >
            {recordWords.wasThisOne}
          </Press>
          <Press
            isWaiting={isBusy || takingBack.isPending}
            onPress={() => post({ ...(posting.told ?? told), another: true })}
          >
            {recordWords.wasAnother}
          </Press>
        </div>
      ) : null}
      {/* Only who made the weighing knows whether the print had ended: the moment of the draw says it. */}
      {held === 'weighed_meanwhile' ? (
        <div className={styles['presses']}>
          <Press isWaiting={isBusy} onPress={() => post({ ...rest, at: print.started_at })}>
            {recordWords.endedByThen}
          </Press>
          <Press isWaiting={isBusy} onPress={() => post({ ...rest, started_at: null })}>
            {recordWords.endedAfter}
          </Press>
        </div>
      ) : null}
    </li>
  )
}

/** What was told at the start of the reels that feed it still. */
const toldNow = ({ told = [], reels, layers, started_at }: RunningShown): readonly string[] =>
  told
    .filter(({ tool }) => reels.filter((one) => one.tool === tool).length === 1)
    .flatMap((one) =>
      runningWords.told(
        one,
        {
          layers: layers.height_mm.length,
          spiral: layers.spiral,
          reel: told.length === 1 ? null : reels.find(({ tool }) => tool === one.tool)!.reel,
        },
        Date.parse(started_at),
        Date.now(),
      ),
    )

/** What was pressed is gone: who goes by keys goes on at the first field. */
const focusFirst = (form: HTMLFormElement | null): void => form?.querySelector('input')?.focus()
