import type { ReactNode } from 'react'
import { Label, Radio, RadioGroup } from 'react-aria-components'
import styles from './field.module.css'

/** One of a few words; the one in force is underlined. */
export function WordChoice<T extends string>({
  label,
  words,
  value,
  onChange,
}: {
  readonly label: string
  readonly words: Readonly<Record<T, string>>
  /** Null while none is chosen. */
  readonly value: T | null
  readonly onChange: (value: T) => void
}): ReactNode {
  return (
    <RadioGroup
      value={value}
      onChange={(next) => onChange(next as T)}
      orientation="horizontal"
      className={styles['choice'] ?? ''}
    >
      <Label>{label}</Label>
      <span className={styles['choiceWords']}>
        {Object.entries<string>(words).map(([key, word]) => (
          <Radio key={key} value={key} className={styles['word'] ?? ''}>
            {word}
          </Radio>
        ))}
      </span>
    </RadioGroup>
  )
}
