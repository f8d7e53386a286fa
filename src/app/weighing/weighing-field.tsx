import type { ReactNode } from 'react'
import type { WeighingTellJson } from '../../contract/index.ts'
import { QuantityField, type QuantityFieldProps } from '../field/quantity-field.tsx'
import { useChoices } from '../look/choices.tsx'
import { toldWeighing } from './told-weighing.ts'

/**
 * What a scale shows, as it is typed: as `toldWeighing` takes it; a bare number is in the unit that masses
 * are shown in.
 */
export function WeighingField(props: QuantityFieldProps<WeighingTellJson>): ReactNode {
  const { unit } = useChoices()
  return <QuantityField {...props} parse={(text) => toldWeighing(text, unit)} />
}
