import type { ReactNode } from 'react'
import { Press } from '../field/press.tsx'
import { recordWords } from '../strings/record-words.ts'
import { sayFailure } from '../strings/say-failure.ts'
import styles from './recorded.module.css'
import type { Posting } from './use-posting.ts'

/** Why something was not written down, and the press that overrules it where one may. */
export const Refused = ({
  posting: { failure, isDoubted, isBusy },
  onAnyway,
}: {
  readonly posting: Omit<Posting<never>, 'post'>
  readonly onAnyway?: () => void
}): ReactNode =>
  failure === null ? null : (
    <div role="alert" className={styles['refused']}>
      <p>{sayFailure(failure)}</p>
      {isDoubted && onAnyway !== undefined ? (
        <Press isDisabled={isBusy} onPress={onAnyway}>
          {recordWords.anyway}
        </Press>
      ) : null}
    </div>
  )
