import type { ReactNode } from 'react'
import styles from './field.module.css'
import { parseClock } from './parse-clock.ts'
import { TypedField } from './typed-field.tsx'

/** A time of day by the clock of 24 hours, which a browser's own field shows as its language has it. */
export function ClockField({
  label,
  typed,
  onTyped,
}: {
  readonly label: string
  readonly typed: string
  readonly onTyped: (typed: string) => void
}): ReactNode {
  const read = parseClock(typed)
  return (
    <div
      className={styles['clock']}
      onBlur={() => {
        if (read.ok && read.value !== typed) onTyped(read.value)
      }}
    >
      <TypedField label={label} text={typed} onText={onTyped} read={parseClock} />
    </div>
  )
}
