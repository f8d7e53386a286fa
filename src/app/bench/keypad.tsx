import type { ReactNode } from 'react'
import { Button } from 'react-aria-components'
import { benchWords } from '../strings/bench-words.ts'
import styles from './bench.module.css'

const point = (1.1).toLocaleString().charAt(1)
const rows = ['7', '8', '9', '4', '5', '6', '1', '2', '3', point, '0'] as const

/** What a key does to what stands in the field. */
export const pressKey = (typed: string, key: string): string =>
  key === 'back' ? typed.trimEnd().slice(0, -1) : typed + key

/** Large keys for one thumb. */
export const Keypad = ({
  hasPounds,
  onKey,
}: {
  /** The scale shows pounds and ounces. */
  readonly hasPounds: boolean
  readonly onKey: (key: string) => void
}): ReactNode => (
  <div className={styles['keys']} role="group" aria-label={benchWords.keys}>
    {rows.map((key) => (
      <Button key={key} className={styles['key'] ?? ''} onPress={() => onKey(key)}>
        {key}
      </Button>
    ))}
    <Button
      className={styles['key'] ?? ''}
      aria-label={benchWords.back}
      onPress={() => onKey('back')}
    >
      ←
    </Button>
    {hasPounds ? (
      <>
        <Button className={styles['key'] ?? ''} onPress={() => onKey(' lb ')}>
          lb
        </Button>
        <Button className={styles['key'] ?? ''} onPress={() => onKey(' oz')}>
          oz
        </Button>
      </>
    ) : null}
  </div>
)
