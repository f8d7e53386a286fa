import { type ReactNode, useId } from 'react'
import styles from './field.module.css'

/** One of a list, by the device's own means of choosing. */
export function ChoiceField({
  label,
  choices,
  value,
  onChange,
}: {
  readonly label: string
  readonly choices: readonly (readonly [value: string, word: string])[]
  readonly value: string
  readonly onChange: (value: string) => void
}): ReactNode {
  const id = useId()
  return (
    <div className={styles['field']}>
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value}
        onChange={(event) => onChange(event.target.value)}
        className={styles['input']}
      >
        {choices.map(([one, word]) => (
          <option key={one} value={one}>
            {word}
          </option>
        ))}
      </select>
    </div>
  )
}
