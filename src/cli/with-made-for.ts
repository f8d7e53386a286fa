import type { PrintReading, ReadOptions } from '../print/index.ts'
import { sayShare } from './say.ts'

/** Diameters nearer than this, mm, are the same nominal one. */
const sameDiameter = 0.3

/**
 * The reading with a warning added where the file was made for another filament than is in use: the
 * lengths are right, but the print gets another volume than it was meant to. A file whose E is mm³
 * is fed by volume and does not mind.
 */
export const withMadeFor = (reading: PrintReading, options: ReadOptions): PrintReading => {
  const { madeFor_mm: madeFor, diameter_mm: used = 1.75, eUnit } = options
  const byVolume = eUnit === 'mm3' || reading.findings.some(({ code }) => code === 'volumetric')
  if (madeFor === undefined || byVolume || Math.abs(madeFor - used) < sameDiameter) return reading
  const share = (used / madeFor) ** 2
  const gets = share < 1 ? sayShare(share) : `${Math.round(share * 100)} %`
  return {
    ...reading,
    findings: [
      ...reading.findings,
      {
        code: 'made_for_other_diameter',
        severity: 'warn',
        byte: 0,
        line: 1,
        count: 1,
        message: `The file was made for ${madeFor} mm and is fed ${used} mm filament: the print gets ${gets} of the plastic it was meant to. Make the file again for ${used} mm.`,
      },
    ],
  }
}
