import { type FormEvent, Fragment, type ReactNode, useState } from 'react'
import { Link } from 'wouter'
import type { DrawRequest, RecordedJson, StoppedAtJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { PrintSilhouette } from '../drawing/print-silhouette.tsx'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { TickField } from '../field/tick-field.tsx'
import { useNarrow } from '../look/use-narrow.ts'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { recordWords } from '../strings/record-words.ts'
import styles from './running.module.css'
import { endPrint, pictureOf, type RunningPrint } from './running-prints.ts'
import { stoppedHeight } from './stopped-height.ts'
import { usePrinterName } from './use-printer-name.ts'
import { WhereItStopped } from './where-it-stopped.tsx'

/** A print that is running, and what may become of it. */
export function RunningRow({
  print,
  onRecorded,
}: {
  readonly print: RunningPrint
  readonly onRecorded: (answer: RecordedJson, stopped: StoppedAtJson | null) => void
}): ReactNode {
  const api = useApi()
  const narrow = useNarrow()
  const printer = usePrinterName(print.printer)
  const [failing, setFailing] = useState(false)
  const [stopped, setStopped] = useState<StoppedAtJson | null>(null)
  const [ranDry, setRanDry] = useState(false)
  const posting = usePosting(
    (told: DrawRequest) => api.draw(told),
    (answer, { stopped_at: at = null }) => {
      endPrint(print.draw)
      onRecorded(answer, at)
    },
  )
  const { isBusy, post } = posting
  const told = (isAccepted: boolean): DrawRequest => ({
    id: print.draw,
    print: print.print,
    reels: print.reels.map((one) => ({ ...one, ...(failing && ranDry && { ran_dry: true }) })),
    printer: print.printer,
    ...(print.firmware !== undefined && { firmware: print.firmware }),
    ...(failing && stopped && { stopped_at: stopped }),
    ...(isAccepted && { accept: true }),
  })
  const height = stoppedHeight(print.layers, stopped)
  return (
    <li className={styles['print']}>
      <p>
        <b className={styles['file']}>
          {recordWords.runningOn(print.file)}{' '}
          {print.reels.map(({ tool, reel }, place) => (
            <Fragment key={tool}>
              {place === 0 ? null : recordWords.and}
              <Link href={`/reel/${reel}`} className={styles['way']}>
                {reel}
              </Link>
            </Fragment>
          ))}
        </b>{' '}
        <span className={styles['soft']}>{recordWords.since(print.started_at, printer)}</span>
      </p>
      {failing ? (
        <form
          className={styles['failing']}
          onSubmit={(event: FormEvent<HTMLFormElement>) => {
            event.preventDefault()
            if (goToUnread(event.currentTarget)) return
            if (stopped !== null) post(told(false))
          }}
        >
          <div className={styles['fields']}>
            <WhereItStopped layers={print.layers} onStopped={setStopped} />
            <TickField label={recordWords.ranDry(print.reels)} isSo={ranDry} onChange={setRanDry} />
            <div className={styles['presses']}>
              <Press type="submit" main isDisabled={stopped === null || isBusy}>
                {recordWords.write}
              </Press>
              <Press onPress={() => setFailing(false)}>{recordWords.back}</Press>
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
        <div className={styles['presses']}>
          <Press main isDisabled={isBusy} onPress={() => post(told(false))}>
            {recordWords.finished}
          </Press>
          <Press isDisabled={isBusy} onPress={() => setFailing(true)}>
            {recordWords.failed}
          </Press>
          <Press isDisabled={isBusy} onPress={() => endPrint(print.draw)}>
            {recordWords.never}
          </Press>
        </div>
      )}
      <Refused posting={posting} onAnyway={() => post(told(true))} />
    </li>
  )
}
