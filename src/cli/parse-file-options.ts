import { eModeOf, eUnitOf, familyOf, filamentDiameter, type ReadingTold } from '../service/index.ts'
import { parseLength } from '../units/index.ts'
import { taken } from './taken.ts'

/** How the file is to be understood, as typed. */
export interface FileText {
  readonly firmware?: string
  readonly eUnit?: string
  readonly eMode?: string
  readonly madeFor?: string
  readonly diameter?: string
}

/** Options of the reader from what was typed. @throws Fault of wrong usage */
export const parseFileOptions = ({
  firmware,
  eUnit,
  eMode,
  madeFor,
  diameter,
}: FileText): ReadingTold => ({
  ...(firmware !== undefined && { firmware: taken(familyOf(firmware), '--firmware') }),
  ...(eUnit !== undefined && { eUnit: taken(eUnitOf(eUnit), '--e-unit') }),
  ...(eMode !== undefined && { eMode: taken(eModeOf(eMode), '--e-mode') }),
  ...(diameter !== undefined && { diameter_mm: parseDiameter(diameter, '--diameter') }),
  ...(madeFor !== undefined && { madeFor_mm: parseDiameter(madeFor, '--made-for') }),
})

/** @throws Fault of wrong usage */
export const parseDiameter = (typed: string, option: string): number =>
  taken(filamentDiameter(taken(parseLength(typed), option).value), option)
