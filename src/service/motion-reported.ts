import type { PrinterRowJson } from '../contract/index.ts'
import { motionRowOf } from '../ledger/index.ts'
import { firmwareFamilies, motionOfReport } from '../print/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'

/**
 * What a printer's answer to M503, or its configuration, tells of its motion.
 *
 * @param text - as pasted
 * @param firmware - family of the printer, where it is told
 * @returns with the family, where the text tells it; `motion_not_found`
 */
export const motionReported = (
  text: string,
  firmware: string | undefined,
): Outcome<Pick<PrinterRowJson, 'motion' | 'firmware'>> => {
  const family = firmwareFamilies.find(({ id }) => id === firmware)?.id
  const found = motionOfReport(text, family)
  if (found?.values === undefined) {
    return refuse({
      code: 'motion_not_found',
      message:
        'Nothing in it tells of a printer’s motion. Give its answer to M503, or its configuration, as text.',
    })
  }
  return accept({
    motion: motionRowOf(found.values),
    ...(found.family !== undefined && { firmware: found.family }),
  })
}
