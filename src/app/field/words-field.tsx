import type { ReactNode } from 'react'
import { FieldError, Input, Label, Text, TextField } from 'react-aria-components'
import styles from './field.module.css'

/** A field for words: a name, a place, a reason. */
export const WordsField = ({
  label,
  hint,
  value,
  onChange,
  refused = null,
}: {
  readonly label: string
  readonly hint?: string
  readonly value: string
  readonly onChange: (value: string) => void
  /** Why what stands there is not taken. */
  readonly refused?: string | null
}): ReactNode => (
  <TextField
    value={value}
    onChange={onChange}
    isInvalid={refused !== null}
    maxLength={200}
    className={styles['field'] ?? ''}
  >
    <Label>{label}</Label>
    <Input autoComplete="off" className={styles['input'] ?? ''} />
    {hint === undefined ? null : (
      <Text slot="description" className={styles['hint'] ?? ''}>
        {hint}
      </Text>
    )}
    <FieldError className={styles['refused'] ?? ''}>{refused}</FieldError>
  </TextField>
)
