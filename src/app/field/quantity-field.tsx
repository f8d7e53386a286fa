import { type ReactNode, useState } from 'react'
import { FieldError, Input, Label, Text, TextField } from 'react-aria-components'
import {
  type Grams,
  type Measured,
  type Millimetres,
  type Outcome,
  parseLength,
  parseMass,
} from '../../units/index.ts'
import styles from './field.module.css'

interface FieldProps<Q extends number> {
  readonly label: string
  /** Stands below the field: how it may be typed. */
  readonly hint?: string
  /** Told at every change; null while what stands there is nothing, or no quantity. */
  readonly onValue: (value: Measured<Q> | null) => void
}

/** A mass as it is typed: `422 g`, `0,422 kg`, `14.9 oz`, `1 lb 2 oz`; a bare number is grams. */
export const MassField = (props: FieldProps<Grams>): ReactNode => (
  <QuantityField {...props} parse={parseMass} />
)

/** A length as it is typed; a bare number is in the unit named. */
export const LengthField = ({
  bare,
  ...props
}: FieldProps<Millimetres> & { readonly bare: 'mm' | 'm' }): ReactNode => (
  <QuantityField {...props} parse={(text) => parseLength(text, bare)} />
)

/** Any quantity as it is typed. */
export function QuantityField<Q extends number>({
  label,
  hint,
  onValue,
  parse,
}: FieldProps<Q> & { readonly parse: (text: string) => Outcome<Measured<Q>> }): ReactNode {
  const [text, setText] = useState('')
  // What is half typed is no mistake yet.
  const [left, setLeft] = useState(false)
  const outcome = text.trim() === '' ? null : parse(text)
  const refused = outcome?.ok === false ? outcome.refusal.message : null
  return (
    <TextField
      value={text}
      onChange={(next) => {
        setText(next)
        setLeft(false)
        const read = next.trim() === '' ? null : parse(next)
        onValue(read?.ok === true ? read.value : null)
      }}
      onBlur={() => setLeft(true)}
      isInvalid={left && refused !== null}
      className={styles['field'] ?? ''}
    >
      <Label>{label}</Label>
      <Input inputMode="text" autoComplete="off" className={styles['input'] ?? ''} />
      {hint === undefined ? null : (
        <Text slot="description" className={styles['hint'] ?? ''}>
          {hint}
        </Text>
      )}
      <FieldError className={styles['refused'] ?? ''}>{refused}</FieldError>
    </TextField>
  )
}
