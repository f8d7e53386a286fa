import type { ReactNode } from 'react'
import { Press } from '../field/press.tsx'
import { Failure } from '../look/said.tsx'
import { recordWords } from '../strings/record-words.ts'
import styles from './recorded.module.css'
import type { Posting } from './use-posting.ts'

/** Why something was not written down, and the press that overrules it where one may. */
export const Refused = ({
  posting: { failure, isDoubted, isBusy, take },
}: {
  readonly posting: Pick<Posting<never>, 'failure' | 'isDoubted' | 'isBusy' | 'take'>
}): ReactNode =>
  failure === null ? null : (
    <div role="alert" className={styles['refused']}>
      <p>
        <Failure of={failure} />
      </p>
      {isDoubted ? (
        <Press isDisabled={isBusy} onPress={take}>
          {recordWords.anyway}
        </Press>
      ) : null}
    </div>
  )
