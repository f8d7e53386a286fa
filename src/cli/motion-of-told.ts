import { motionOfPrinter } from '../ledger/index.ts'
import type { MotionOptions } from '../print/index.ts'
import { choosePrinter } from '../service/index.ts'
import type { OpenLedger } from './open-ledger.ts'

/** Of the printer that is named or the only one; what is wrong with the name is told elsewhere. */
export const motionOfTold = async (
  { store }: OpenLedger,
  printer: string | undefined,
): Promise<MotionOptions> => {
  const chosen = choosePrinter(await store.catalogue(), printer)
  return chosen.ok ? motionOfPrinter(chosen.value) : {}
}
