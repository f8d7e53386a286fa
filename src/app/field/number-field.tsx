import type { ReactNode } from 'react'
import { type NumberBounds, parseBounded } from './parse-bounded.ts'
import { QuantityField, type QuantityFieldProps } from './quantity-field.tsx'

/** A plain number as it is typed, with a comma or a point. */
export const NumberField = ({
  least = 0,
  most = 1e9,
  whole = false,
  ...props
}: QuantityFieldProps<number> & NumberBounds): ReactNode => (
  <QuantityField {...props} parse={(text) => parseBounded(text, { least, most, whole })} />
)
