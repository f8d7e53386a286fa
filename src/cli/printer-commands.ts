import type { PrinterRowJson } from '../contract/index.ts'
import type { RowTold } from '../service/index.ts'
import { formatMeasured, parseLength, withTypedDoubt } from '../units/index.ts'
import { addCommand, changeCommand, listCommand } from './catalogue-command.ts'
import { usageFault } from './fault.ts'
import { motionTold } from './motion-told.ts'
import type { LedgerText } from './open-ledger.ts'
import { parseFactor } from './parse-factor.ts'
import { parseFileOptions } from './parse-file-options.ts'
import { taken } from './parse-reel.ts'

/** What was typed after `printer add` and `printer change`. */
export interface PrinterText extends LedgerText {
  readonly name?: string
  readonly firmware?: string
  readonly feedFactor?: string
  readonly startAllowance?: string
  readonly tail?: string
  readonly motion?: string
  readonly change?: string
  readonly retired?: boolean
  readonly note?: string
}

const length = (text: string, option: string): { value: number; u: number } => {
  const { value, u } = taken(withTypedDoubt(text, parseLength), option)
  return { value, u }
}

const partsOf = async (typed: PrinterText): Promise<Partial<RowTold<'printer'>>> => {
  const { name, firmware, feedFactor, startAllowance: start, tail, change, retired, note } = typed
  const family = firmware === undefined ? undefined : parseFileOptions({ firmware }).firmware
  const factor = feedFactor === undefined ? undefined : parseFactor(feedFactor, '--feed-factor')
  if (factor?.u === 0) {
    throw usageFault(
      'doubt_needed',
      '--feed-factor: no printer feeds exactly what it is asked. Say how far off it may be, as 1.006±0.005.',
      '--feed-factor',
    )
  }
  const { motion, ...known } = await motionTold(typed.motion, family)
  return {
    ...known,
    ...(name !== undefined && { name }),
    ...(family !== undefined && { firmware: family }),
    ...(motion && { motion }),
    ...(factor && { feed_factor: { value: factor.value, u: factor.u } }),
    ...(start !== undefined && { start_allowance_mm: length(start, '--start-allowance') }),
    ...(tail !== undefined && { tail_mm: length(tail, '--tail') }),
    ...(change !== undefined && { change_mm: length(change, '--change') }),
    ...(retired === true && { retired: true as const }),
    ...(note !== undefined && { note }),
  }
}

/** `reelreckon printer add` */
export const printerAddCommand = (name: string, typed: PrinterText): Promise<void> =>
  addCommand('printer', typed, async () => ({ ...(await partsOf(typed)), name }))

/** `reelreckon printer change` */
export const printerChangeCommand = (printer: string, typed: PrinterText): Promise<void> =>
  changeCommand('printer', printer, typed, () => partsOf(typed))

const figure = (of: { value: number; u: number } | undefined, unit: string): string =>
  of === undefined ? '–' : formatMeasured(of, unit).trim()

/** `reelreckon printer list` */
export const printerListCommand = (typed: LedgerText): Promise<void> =>
  listCommand(
    'printer',
    typed,
    ['name', 'firmware', 'feed factor', 'start', 'tail', 'change', 'motion', ''],
    (row: PrinterRowJson) => [
      row.name,
      row.firmware ?? '–',
      figure(row.feed_factor, ''),
      figure(row.start_allowance_mm, 'mm'),
      figure(row.tail_mm, 'mm'),
      figure(row.change_mm, 'mm'),
      row.motion === undefined ? '–' : (row.motion.corner ?? 'told'),
      row.retired === true ? 'retired' : '',
    ],
  )
