import { type ReactNode, useId } from 'react'
import { formatIsoDay } from '../../units/index.ts'
import type { MomentOfLife } from '../api/api.ts'
import field from '../field/field.module.css'
import { Press } from '../field/press.tsx'
import { TickField } from '../field/tick-field.tsx'
import { reelWords } from '../strings/reel-words.ts'
import styles from './reel.module.css'

/** Picks a moment of a reel's life, to see its figures as they were. */
export function ThenChoice({
  openedAt,
  then,
  onThen,
}: {
  readonly openedAt: string
  /** Null: now. */
  readonly then: MomentOfLife | null
  readonly onThen: (then: MomentOfLife | null) => void
}): ReactNode {
  const id = useId()
  return (
    <div className={styles['then']}>
      <div className={field['field']}>
        <label htmlFor={id}>{reelWords.thenDay}</label>
        <input
          id={id}
          type="date"
          className={field['input']}
          min={formatIsoDay(openedAt)}
          max={formatIsoDay(Date.now())}
          value={then === null ? '' : formatIsoDay(then.at)}
          onChange={({ target }) => {
            const end = new Date(`${target.value}T23:59:59.999`)
            if (Number.isNaN(end.getTime())) return onThen(null)
            const at = end.toISOString()
            return onThen({ at, ...(then?.known_at !== undefined && { known_at: at }) })
          }}
        />
      </div>
      {then === null ? null : (
        <>
          <TickField
            label={reelWords.thenKnown}
            isSo={then.known_at !== undefined}
            onChange={(isKnown) => onThen({ at: then.at, ...(isKnown && { known_at: then.at }) })}
          />
          <Press onPress={() => onThen(null)}>{reelWords.thenNow}</Press>
        </>
      )}
    </div>
  )
}
