import type { ReactNode } from 'react'
import { benchWords } from '../strings/bench-words.ts'
import styles from './bench.module.css'
import type { ScaleChoice } from './use-scale-choice.ts'

/** Which scale it stands on, where there are several. */
export const ScaleSelect = ({
  choice: { scales, scale, setScale },
}: {
  readonly choice: ScaleChoice
}): ReactNode =>
  scales.length < 2 || scale === null ? null : (
    <label className={styles['which']}>
      {benchWords.scale}{' '}
      <select value={scale} onChange={(event) => setScale(event.target.value)}>
        {scales.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </label>
  )
