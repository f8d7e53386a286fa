import type { ReactNode } from 'react'
import { ProgressBar } from 'react-aria-components'
import { Press } from '../field/press.tsx'
import { SheetFrame } from '../frame/sheet-frame.tsx'
import { RunningList } from '../running/running-list.tsx'
import { checkWords } from '../strings/check-words.ts'
import { frameWords } from '../strings/frame-words.ts'
import { Answer } from './answer.tsx'
import styles from './check.module.css'
import { ChooseFile, ChooseFileButton } from './choose-file.tsx'
import type { ReadingAtHand } from './use-reading.ts'

/** Will a reel of the shelf finish this print? */
export function CheckSheet({ at }: { readonly at: ReadingAtHand }): ReactNode {
  const { reading, take, cancel } = at
  if (reading.kind === 'read') return <Answer file={reading.file} member={reading.member} at={at} />
  return (
    <SheetFrame title={frameWords.check}>
      <h1 className="spoken">{checkWords.question}</h1>
      <RunningList />
      {reading.kind === 'none' ? <ChooseFile onFile={take} /> : null}
      {reading.kind === 'reading' ? (
        <div className={styles['reading']}>
          <ProgressBar
            aria-label={checkWords.reading(reading.name)}
            value={reading.of === 0 ? 0 : (100 * reading.read) / reading.of}
          >
            {({ percentage = 0 }) => (
              <>
                <p className={styles['fileName']}>{checkWords.reading(reading.name)}</p>
                <svg width="100%" height="14" aria-hidden="true">
                  <rect y="6" width="100%" height="2" fill="var(--hairline)" />
                  <rect y="4" width={`${percentage}%`} height="6" fill="var(--ink)" />
                </svg>
                <p className={styles['bytes']}>{checkWords.bytesOf(reading.read, reading.of)}</p>
              </>
            )}
          </ProgressBar>
          <Press onPress={cancel}>{checkWords.cancel}</Press>
        </div>
      ) : null}
      {reading.kind === 'refused' ? (
        <div role="alert" className={styles['refused']}>
          <h2>{checkWords.notRead(reading.name)}</h2>
          <p>{reading.refusal.message}</p>
          <ChooseFileButton onFile={take}>{checkWords.chooseAnother}</ChooseFileButton>
        </div>
      ) : null}
    </SheetFrame>
  )
}
