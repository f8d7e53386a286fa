import { type ReactNode, useId } from 'react'
import styles from './field.module.css'

/** One of many words, by the list that the device has for that. */
export function ChoiceField({
  label,
  hidesLabel = false,
  words,
  value,
  onChange,
  refused = null,
}: {
  readonly label: string
  /** It is spoken only, where its place says what it is. */
  readonly hidesLabel?: boolean
  /** Values and their words, in order. */
  readonly words: readonly (readonly [value: string, word: string])[]
  readonly value: string
  readonly onChange: (value: string) => void
  readonly refused?: string | null
}): ReactNode {
  const id = useId()
  return (
    <div className={styles['field']}>
      <label htmlFor={id} className={hidesLabel ? 'spoken' : undefined}>
        {label}
      </label>
      <select
        id={id}
        value={value}
        onChange={(event) => onChange(event.target.value)}
        aria-invalid={refused === null ? undefined : true}
        aria-describedby={refused === null ? undefined : `${id}-refused`}
        className={styles['input']}
      >
        {words.map(([one, word]) => (
          <option key={one} value={one}>
            {word}
          </option>
        ))}
      </select>
      {refused === null ? null : (
        <span role="alert" id={`${id}-refused`} className={styles['refused']}>
          {refused}
        </span>
      )}
    </div>
  )
}
