import type { ReactNode } from 'react'
import { ProgressBar } from 'react-aria-components'
import { Press } from '../field/press.tsx'
import { DemoPrints } from '../first/demo-prints.tsx'
import { Said } from '../look/said.tsx'
import { checkWords } from '../strings/check-words.ts'
import { useTouch } from '../touch/touch.tsx'
import styles from './check.module.css'
import { ChooseFile, ChooseFileButton } from './choose-file.tsx'
import type { ReadingAtHand } from './use-reading.ts'

/** Asks for a print, shows how far the reading is, or why it can not be read. */
export function TakePrint({
  at: { reading, take, cancel },
  small = false,
}: {
  readonly at: ReadingAtHand
  /** As one part of a sheet among others. */
  readonly small?: boolean
}): ReactNode {
  const { session } = useTouch()
  if (reading.kind === 'none') {
    return (
      <>
        <ChooseFile onFile={take} small={small} />
        {session?.demo === true ? <DemoPrints onFile={take} /> : null}
      </>
    )
  }
  if (reading.kind === 'reading') {
    return (
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
    )
  }
  if (reading.kind === 'read') return null
  return (
    <div role="alert" className={styles['refused']}>
      <h2>{checkWords.notRead(reading.name)}</h2>
      <p>
        <Said>{reading.refusal.message}</Said>
      </p>
      <ChooseFileButton onFile={take}>{checkWords.chooseAnother}</ChooseFileButton>
    </div>
  )
}
