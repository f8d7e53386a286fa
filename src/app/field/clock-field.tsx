import type { ReactNode, RefObject } from 'react'
import styles from './field.module.css'
import { parseClock } from './parse-clock.ts'
import { TypedField } from './typed-field.tsx'

/** A time of day by the clock of 24 hours, which a browser's own field shows as its language has it. */
export function ClockField({
  label,
  typed,
  onTyped,
  box,
}: {
  readonly label: string
  readonly typed: string
  readonly onTyped: (typed: string) => void
  /** Who is to go to it when it can not be read has it from here. */
  readonly box?: RefObject<HTMLDivElement | null>
}): ReactNode {
  const read = parseClock(typed)
  return (
    <div
      ref={box}
      className={styles['clock']}
      onBlur={() => {
        if (read.ok && read.value !== typed) onTyped(read.value)
      }}
    >
      <TypedField label={label} text={typed} onText={onTyped} read={parseClock} />
    </div>
  )
}
