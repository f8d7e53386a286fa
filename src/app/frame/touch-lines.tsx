import { touchWords } from '../strings/touch-words.ts'
import type { InTouch } from '../touch/touch.tsx'
import styles from './frame.module.css'
import type { TitleLine } from './title-block.tsx'

/** Which ledger the sheet shows, and whether the page is in touch with the server. */
export function touchLines({ inTouch, session }: InTouch): readonly TitleLine[] {
  const { ledgers, seeking, outOfTouch } = touchWords
  const which: readonly TitleLine[] =
    session === null ? [] : [[touchWords.ledger, session.demo ? ledgers.demo : ledgers.own]]
  const state =
    inTouch === false ? (
      <span className={styles['lost']}>{outOfTouch}</span>
    ) : (inTouch ?? false) ? (
      touchWords.inTouch
    ) : (
      seeking
    )
  return [
    ...which,
    [
      touchWords.server,
      <span key="server" role="status">
        {state}
      </span>,
    ],
  ]
}
