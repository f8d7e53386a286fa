import { type ReactNode, useState } from 'react'
import { FieldError, Input, Label, Text, TextField } from 'react-aria-components'
import type { Outcome } from '../../units/index.ts'
import { Said } from '../look/said.tsx'
import styles from './field.module.css'
import { unreadMark } from './go-to-unread.ts'

/** A field whose text its form keeps, and what is wrong with it below. */
export function TypedField({
  label,
  hint,
  text,
  onText,
  read,
  refused = null,
  needed = false,
  isFirst = false,
}: {
  readonly label: string
  /** Stands below the field: how it may be typed. */
  readonly hint?: string | undefined
  readonly text: string
  readonly onText: (text: string) => void
  /** Reads what is no blank. */
  readonly read?: ((text: string) => Outcome<unknown>) | undefined
  /** What its form has against it. */
  readonly refused?: string | null
  readonly needed?: boolean
  /** Where the keys go when its form opens. */
  readonly isFirst?: boolean
}): ReactNode {
  // What is half typed is no mistake yet.
  const [left, setLeft] = useState(false)
  const outcome = text.trim() === '' ? null : (read?.(text) ?? null)
  const wrong = outcome?.ok === false && left ? outcome.refusal.message : null
  const said = refused ?? wrong
  return (
    <TextField
      value={text}
      onChange={(next) => {
        setLeft(false)
        onText(next)
      }}
      onBlur={() => setLeft(true)}
      isInvalid={said !== null}
      isRequired={needed}
      validationBehavior="aria"
      autoFocus={isFirst}
      className={styles['field'] ?? ''}
    >
      <Label>{label}</Label>
      <Input
        autoComplete="off"
        className={styles['input'] ?? ''}
        {...(outcome?.ok === false && { [unreadMark]: true })}
      />
      {hint === undefined ? null : (
        <Text slot="description" className={styles['hint'] ?? ''}>
          {hint}
        </Text>
      )}
      <FieldError className={styles['refused'] ?? ''}>
        {said === null ? null : (
          <span role="alert">
            <Said>{said}</Said>
          </span>
        )}
      </FieldError>
    </TextField>
  )
}
