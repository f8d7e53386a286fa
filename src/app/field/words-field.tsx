import type { ReactNode } from 'react'
import { Input, Label, Text, TextField } from 'react-aria-components'
import styles from './field.module.css'

/** Words as a person types them. */
export const WordsField = ({
  label,
  hint,
  value,
  isRequired = false,
  onChange,
}: {
  readonly label: string
  readonly hint?: string
  readonly value: string
  readonly isRequired?: boolean
  readonly onChange: (value: string) => void
}): ReactNode => (
  <TextField
    value={value}
    onChange={onChange}
    isRequired={isRequired}
    className={styles['field'] ?? ''}
  >
    <Label>{label}</Label>
    <Input autoComplete="off" className={styles['input'] ?? ''} />
    {hint === undefined ? null : (
      <Text slot="description" className={styles['hint'] ?? ''}>
        {hint}
      </Text>
    )}
  </TextField>
)
