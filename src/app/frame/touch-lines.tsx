import { touchWords } from '../strings/touch-words.ts'
import type { InTouch } from '../touch/touch.tsx'
import styles from './frame.module.css'
import type { TitleLine } from './title-block.tsx'

/** Which ledger the sheet shows, at what revision and hour, and whether the page is in touch with the server. */
export function touchLines({ inTouch, session, state: stand }: InTouch): readonly TitleLine[] {
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
  const since: readonly TitleLine[] =
    stand === null
      ? []
      : [[touchWords.revision, touchWords.revisionAt(stand.revision, new Date(stand.at))]]
  return [
    ...which,
    ...since,
    [
      touchWords.server,
      <span key="server" role="status">
        {state}
      </span>,
    ],
  ]
}
