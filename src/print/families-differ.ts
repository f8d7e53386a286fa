import { formatLength, measured, millimetres } from '../units/index.ts'
import type { Finding } from './finding.ts'
import { firmwareFamilies } from './firmware-family.ts'
import type { FamilyReading } from './reading.ts'

/**
 * The question to ask when firmware families draw differently, with each answer's figures; null
 * when they agree.
 */
export function familiesDiffer(
  groups: readonly FamilyReading[],
): Omit<Finding, 'byte' | 'line'> | null {
  if (groups.length < 2) return null
  const answers = groups.map(({ families, tools }) => {
    const total = tools.reduce((sum, { peak_mm }) => sum + peak_mm, 0)
    const who = families.length === firmwareFamilies.length ? 'any' : families.join(' or ')
    return `${who}: ${formatLength(measured(millimetres(total)))}`
  })
  return {
    code: 'families_differ',
    severity: 'ask',
    count: 1,
    message: `What this file draws depends on the printer's firmware (${answers.join('; ')}).`,
  }
}
