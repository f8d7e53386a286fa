import { type ReactNode, useId } from 'react'
import styles from './field.module.css'

/** One of a few things by name, in a line of text; its label is heard without them. */
export function LineSelect({
  label,
  choices,
  value,
  onChange,
}: {
  readonly label: string
  readonly choices: readonly { readonly id: string; readonly name: string }[]
  readonly value: string
  readonly onChange: (id: string) => void
}): ReactNode {
  const field = useId()
  return (
    <p className={styles['line']}>
      <label htmlFor={field}>{label}</label>{' '}
      <select id={field} value={value} onChange={(event) => onChange(event.target.value)}>
        {choices.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </p>
  )
}
