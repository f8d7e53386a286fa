import type { ReactNode } from 'react'
import { type NumberBounds, parseNumber } from './parse-number.ts'
import { QuantityField, type QuantityFieldProps } from './quantity-field.tsx'

/** A plain number as it is typed, with a comma or a point. */
export const NumberField = ({
  least = 0,
  most = 1e9,
  whole = false,
  ...props
}: QuantityFieldProps<number> & NumberBounds): ReactNode => (
  <QuantityField {...props} parse={(text) => parseNumber(text, { least, most, whole })} />
)
