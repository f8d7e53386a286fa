import { useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useCallback } from 'react'
import { Press } from '../field/press.tsx'
import { useChoices } from '../look/choices.tsx'
import { waitingWords } from '../strings/waiting-words.ts'
import { ledgerShown } from './ledger-shown.ts'
import { useSending, useWaiting } from './use-waiting.ts'
import styles from './waiting.module.css'

/** Weighings that the server does not have yet, or asks about; nothing where there are none. */
export function WaitingNote(): ReactNode {
  const { waiting, list } = useWaiting()
  const { unit } = useChoices()
  const queries = useQueryClient()
  const refresh = useCallback(() => void queries.invalidateQueries(), [queries])
  useSending(waiting, refresh)
  if (list.length === 0) return null
  const ledger = ledgerShown()
  const own = list.filter((one) => one.ledger === ledger)
  const asking = own.filter(({ asks }) => asks !== undefined).length
  return (
    <details className={styles['waiting']} open={asking > 0}>
      <summary>
        <span role="status">
          {waitingWords.summary(own.length - asking, asking, list.length - own.length)}
        </span>
      </summary>
      <ul>
        {list.map((one) => (
          <li key={one.id}>
            <p>{waitingWords.weighing(one, unit)}</p>
            {one.ledger === ledger ? null : <p>{waitingWords.ofAnother}</p>}
            {one.asks === undefined ? null : <p>{waitingWords.asks(one.asks, unit)}</p>}
            <div className={styles['presses']}>
              {one.ledger === ledger ? null : (
                <Press onPress={() => void waiting.sendHere(one).then(refresh)}>
                  {waitingWords.sendHere}
                </Press>
              )}
              {one.asks === undefined || one.ledger !== ledger ? null : (
                <Press onPress={() => void waiting.again(one).then(refresh)}>
                  {one.asks.surprise === undefined ? waitingWords.again : waitingWords.accept}
                </Press>
              )}
              <Press onPress={() => void waiting.leaveOut(one)}>{waitingWords.leaveOut}</Press>
            </div>
          </li>
        ))}
      </ul>
    </details>
  )
}
