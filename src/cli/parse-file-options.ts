import { type FirmwareFamilyId, firmwareFamilies, type ReadOptions } from '../print/index.ts'
import { parseLength } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { taken } from './taken.ts'

/** How the file is to be understood, as typed. */
export interface FileText {
  readonly firmware?: string
  readonly eUnit?: string
  readonly eMode?: string
  readonly madeFor?: string
  readonly diameter?: string
}

/** Filament that any printer takes, mm. */
const diameters = { least: 0.5, most: 10 }

/** Options of the reader from what was typed. @throws Fault of wrong usage */
export const parseFileOptions = ({
  firmware,
  eUnit,
  eMode,
  madeFor,
  diameter,
}: FileText): ReadOptions => ({
  ...(firmware !== undefined && { firmware: parseFirmware(firmware) }),
  ...(eUnit !== undefined && { eUnit: parseUnit(eUnit) }),
  ...(eMode !== undefined && { eMode: parseMode(eMode) }),
  ...(diameter !== undefined && { diameter_mm: parseDiameter(diameter, '--diameter') }),
  ...(madeFor !== undefined && { madeFor_mm: parseDiameter(madeFor, '--made-for') }),
})

const parseFirmware = (typed: string): FirmwareFamilyId => {
  const family = firmwareFamilies.find(({ id }) => id === typed.toLowerCase())
  if (family !== undefined) return family.id
  const choice = firmwareFamilies.map(({ id, description }) => `\n  ${id}: ${description}`)
  throw usageFault(
    'firmware_unknown',
    `--firmware: "${typed}" is no family known here. Choose one of${choice.join('')}`,
    '--firmware',
  )
}

const parseUnit = (typed: string): 'mm' | 'mm3' => {
  const unit = typed.toLowerCase().replace('³', '3').replace('^', '')
  if (unit === 'mm' || unit === 'mm3') return unit
  throw usageFault('e_unit_unknown', `--e-unit: "${typed}" is neither mm nor mm3.`, '--e-unit')
}

const parseMode = (typed: string): 'absolute' | 'relative' => {
  const mode = typed.toLowerCase()
  if (mode === 'absolute' || mode === 'relative') return mode
  throw usageFault(
    'e_mode_unknown',
    `--e-mode: "${typed}" is neither absolute nor relative.`,
    '--e-mode',
  )
}

const parseDiameter = (typed: string, option: string): number => {
  const { value } = taken(parseLength(typed), option)
  if (value >= diameters.least && value <= diameters.most) return value
  throw usageFault(
    'diameter_out_of_range',
    `${option}: filament of ${value} mm is not printed. Expected ${diameters.least} to ${diameters.most} mm, as 1.75mm.`,
    option,
  )
}
