import { factBounds } from '../ledger/index.ts'
import { type FirmwareFamilyId, firmwareFamilies, type ReadOptions } from '../print/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'

/** What a print file leaves open, as it is told. */
export type ReadingTold = Pick<
  ReadOptions,
  'firmware' | 'eUnit' | 'eMode' | 'diameter_mm' | 'madeFor_mm'
>

/** A firmware family by its id. @returns `firmware_unknown` */
export const familyOf = (typed: string): Outcome<FirmwareFamilyId> => {
  const family = firmwareFamilies.find(({ id }) => id === typed.toLowerCase())
  if (family !== undefined) return accept(family.id)
  const choice = firmwareFamilies.map(({ id, description }) => `\n  ${id}: ${description}`)
  return refuse({
    code: 'firmware_unknown',
    message: `"${typed}" is no family known here. Choose one of${choice.join('')}`,
    expected: firmwareFamilies.map(({ id }) => id).join(', '),
    received: typed,
  })
}

/** The unit of E: mm, or mm3, mm^3, mm³. @returns `e_unit_unknown` */
export const eUnitOf = (typed: string): Outcome<'mm' | 'mm3'> => {
  const unit = typed.toLowerCase().replace('³', '3').replace('^', '')
  if (unit === 'mm' || unit === 'mm3') return accept(unit)
  return refuse({
    code: 'e_unit_unknown',
    message: `"${typed}" is neither mm nor mm3.`,
    expected: 'mm, mm3',
    received: typed,
  })
}

/** How E counts. @returns `e_mode_unknown` */
export const eModeOf = (typed: string): Outcome<'absolute' | 'relative'> => {
  const mode = typed.toLowerCase()
  if (mode === 'absolute' || mode === 'relative') return accept(mode)
  return refuse({
    code: 'e_mode_unknown',
    message: `"${typed}" is neither absolute nor relative.`,
    expected: 'absolute, relative',
    received: typed,
  })
}

/** A diameter of filament that any printer takes, mm. @returns `diameter_out_of_range` */
export const filamentDiameter = (value: number): Outcome<number> => {
  const [least, most, unit] = factBounds.diameter_mm
  if (value >= least && value <= most) return accept(value)
  const what = Number.isNaN(value)
    ? 'That is no number.'
    : `Filament of ${value} mm is not printed.`
  return refuse({
    code: 'diameter_out_of_range',
    message: `${what} Expected ${least} to ${most} ${unit}, as 1.75${unit}.`,
    expected: `${least} to ${most} ${unit}`,
    received: String(value),
  })
}

/** A density that filament can have, g/cm³. @returns `density_out_of_range` */
export const filamentDensity = (value: number): Outcome<number> => {
  const [least, most, unit] = factBounds.density
  if (value >= least && value <= most) return accept(value)
  return refuse({
    code: 'density_out_of_range',
    message: `A density is from ${least} to ${most} ${unit}, as 1.24.`,
    expected: `${least} to ${most} ${unit}`,
    received: String(value),
  })
}
