import { type ReactNode, useState } from 'react'
import { formatIsoDay, type Outcome } from '../../units/index.ts'
import type { MomentOfLife } from '../api/api.ts'
import { parseDay } from '../field/parse-clock.ts'
import { Press } from '../field/press.tsx'
import { TickField } from '../field/tick-field.tsx'
import { TypedField } from '../field/typed-field.tsx'
import { fieldWords } from '../strings/field-words.ts'
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
  // What is typed stands as long as it is no day; a day picked elsewhere, as on the chart, takes its place.
  const [typing, setTyping] = useState('')
  const text = then === null ? typing : formatIsoDay(then.at)
  const read = (typed: string): Outcome<string> =>
    parseDay(typed, [formatIsoDay(openedAt), formatIsoDay(Date.now())])
  return (
    <div className={styles['then']}>
      <TypedField
        label={reelWords.thenDay}
        hint={fieldWords.dayHint}
        text={text}
        read={read}
        onText={(typed) => {
          const found = read(typed)
          setTyping(found.ok ? '' : typed)
          if (!found.ok) return onThen(null)
          const at = new Date(`${found.value}T23:59:59.999`).toISOString()
          return onThen({ at, ...(then?.known_at !== undefined && { known_at: at }) })
        }}
      />
      {then === null ? null : (
        <>
          <TickField
            label={reelWords.thenKnown}
            isSo={then.known_at !== undefined}
            onChange={(isKnown) => onThen({ at: then.at, ...(isKnown && { known_at: then.at }) })}
          />
          <Press
            onPress={() => {
              setTyping('')
              onThen(null)
            }}
          >
            {reelWords.thenNow}
          </Press>
        </>
      )}
    </div>
  )
}
