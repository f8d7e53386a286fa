import { type ReactNode, useId } from 'react'
import { FieldError, Input, Label, Text, TextField } from 'react-aria-components'
import styles from './field.module.css'

/** A field for words, which may offer some. */
export function WordsField({
  label,
  hint,
  value,
  onChange,
  offered = [],
  refused = null,
}: {
  readonly label: string
  /** Stands below the field: how it may be typed. */
  readonly hint?: string
  readonly value: string
  readonly onChange: (value: string) => void
  /** Words that can be taken; others can be typed. */
  readonly offered?: readonly string[]
  /** Why it can not be taken as it stands. */
  readonly refused?: string | null
}): ReactNode {
  const list = useId()
  return (
    <TextField
      value={value}
      onChange={onChange}
      isInvalid={refused !== null}
      className={styles['field'] ?? ''}
    >
      <Label>{label}</Label>
      <Input
        autoComplete="off"
        maxLength={200}
        className={styles['input'] ?? ''}
        {...(offered.length > 0 && { list })}
      />
      {offered.length === 0 ? null : (
        <datalist id={list}>
          {offered.map((word) => (
            <option key={word} value={word} />
          ))}
        </datalist>
      )}
      {hint === undefined ? null : (
        <Text slot="description" className={styles['hint'] ?? ''}>
          {hint}
        </Text>
      )}
      <FieldError className={styles['refused'] ?? ''}>{refused}</FieldError>
    </TextField>
  )
}
