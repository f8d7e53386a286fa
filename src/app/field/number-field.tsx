import type { ReactNode } from 'react'
import { accept, type Outcome, refuse } from '../../units/index.ts'
import { fieldWords } from '../strings/field-words.ts'
import { QuantityField, type QuantityFieldProps } from './quantity-field.tsx'

interface Bounds {
  /** Least that is taken; 0 unless given. */
  readonly least?: number
  readonly most?: number
  readonly whole?: boolean
}

/** A plain number as it is typed, with a comma or a point. */
export const NumberField = ({
  least = 0,
  most = 1e9,
  whole = false,
  ...props
}: QuantityFieldProps<number> & Bounds): ReactNode => (
  <QuantityField {...props} parse={(text) => parseNumber(text, { least, most, whole })} />
)

/** @returns `number_malformed`, `number_out_of_bounds` */
export const parseNumber = (
  typed: string,
  { least = 0, most = 1e9, whole = false }: Bounds = {},
): Outcome<number> => {
  const text = typed.trim().replace(',', '.')
  if (!/^-?\d+(?:\.\d+)?$/.test(text) || (whole && text.includes('.'))) {
    return refuse({
      code: 'number_malformed',
      message: fieldWords.noNumber(typed, whole),
      received: typed,
    })
  }
  const value = Number(text)
  if (value >= least && value <= most) return accept(value)
  return refuse({
    code: 'number_out_of_bounds',
    message: fieldWords.outOfBounds(least, most),
    received: typed,
  })
}
