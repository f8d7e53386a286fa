import { type ReactNode, useState } from 'react'
import { FieldError, Input, Label, Text, TextField } from 'react-aria-components'
import { factBounds } from '../../ledger/index.ts'
import {
  type Celsius,
  type Grams,
  type GramsPerCubicCentimetre,
  type LengthUnit,
  type Measured,
  type Millimetres,
  type Outcome,
  parseDensity,
  parseTemperature,
  withTypedDoubt,
} from '../../units/index.ts'
import { useChoices } from '../look/choices.tsx'
import { Said } from '../look/said.tsx'
import styles from './field.module.css'
import { unreadMark } from './go-to-unread.ts'
import { massInUnit } from './mass-in-unit.ts'
import { readLength, readMass } from './read-in-unit.ts'
import { withinBounds } from './within-bounds.ts'

/** What every field of a quantity is given. */
export interface QuantityFieldProps<Q> {
  readonly label: string
  /** Stands below the field: how it may be typed. */
  readonly hint?: string
  /** What stands in it at first. */
  readonly first?: string
  /** Where the keys go when it appears. */
  readonly isFirst?: boolean
  /**
   * Told at every change; null while what stands there is nothing, or no quantity. The uncertainty
   * is the one typed, else what the figures leave.
   */
  readonly onValue: (value: Q | null, typed: string) => void
}

/**
 * A mass as it is typed: `422 g`, `0,422 kg`, `14.9 oz`, `1 lb 2 oz`; a bare number is in the unit
 * that masses are shown in.
 */
export function MassField(props: QuantityFieldProps<Measured<Grams>>): ReactNode {
  const { unit } = useChoices()
  return (
    <QuantityField
      {...props}
      parse={(text) => withTypedDoubt(massInUnit(text, unit), (typed) => readMass(typed, unit))}
    />
  )
}

/** A length as it is typed: `1,75 mm`, `62 m`, `3 ft`. @param bare - unit of a number without one */
export const LengthField = ({
  bare = 'mm',
  ...props
}: QuantityFieldProps<Measured<Millimetres>> & { readonly bare?: LengthUnit }): ReactNode => (
  <QuantityField
    {...props}
    parse={(text) => withTypedDoubt(text, (typed) => readLength(typed, bare))}
  />
)

/** A density as it is typed: `1,24 g/cm3`; a bare number is g/cm³. */
export const DensityField = (
  props: QuantityFieldProps<Measured<GramsPerCubicCentimetre>>,
): ReactNode => <QuantityField {...props} parse={parseTypedDensity} />

const parseTypedDensity = withinBounds(
  (text) => withTypedDoubt(text, parseDensity),
  ({ value }) => [value],
  factBounds.density,
)

/** A temperature as it is typed: `45`, `45 °C`, `113 °F`. */
export const TemperatureField = (props: QuantityFieldProps<Measured<Celsius>>): ReactNode => (
  <QuantityField {...props} parse={parseTemperature} />
)

/** A field for anything that is typed as text and read by a parser; refusals stand next to it. */
export function QuantityField<Q>({
  label,
  hint,
  first = '',
  isFirst = false,
  onValue,
  parse,
}: QuantityFieldProps<Q> & { readonly parse: (text: string) => Outcome<Q> }): ReactNode {
  const [text, setText] = useState(first)
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
        onValue(read?.ok === true ? read.value : null, next)
      }}
      onBlur={() => setLeft(true)}
      isInvalid={left && refused !== null}
      autoFocus={isFirst}
      className={styles['field'] ?? ''}
    >
      <Label>{label}</Label>
      <Input
        inputMode="text"
        autoComplete="off"
        className={styles['input'] ?? ''}
        {...(refused !== null && { [unreadMark]: true })}
      />
      {hint === undefined ? null : (
        <Text slot="description" className={styles['hint'] ?? ''}>
          {hint}
        </Text>
      )}
      <FieldError className={styles['refused'] ?? ''}>
        {refused === null ? null : <Said>{refused}</Said>}
      </FieldError>
    </TextField>
  )
}
