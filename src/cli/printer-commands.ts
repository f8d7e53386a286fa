import type { MeasuredJson, PrinterRowJson } from '../contract/index.ts'
import type { RowTold } from '../service/index.ts'
import { formatMeasured, measured, millimetres } from '../units/index.ts'
import { addCommand, changeCommand, listAs } from './catalogue-command.ts'
import { usageFault } from './fault.ts'
import { motionTold } from './motion-told.ts'
import type { LedgerText } from './open-ledger.ts'
import { parseFactor } from './parse-factor.ts'
import { parsePathLength } from './parse-fed-length.ts'
import { parseFileOptions } from './parse-file-options.ts'
import { sayMeasuredLength } from './say.ts'
import { harmless } from './terminal.ts'
import { wrap } from './wrap.ts'

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
  const { value, u } = parsePathLength(text, option)
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

/** `reelreckon printer list` */
export const printerListCommand = (typed: LedgerText): Promise<void> =>
  listAs('printer', typed, (rows) => rows.flatMap(printerLines).join('\n'))

const lengthOf = ({ value, u }: MeasuredJson): string =>
  sayMeasuredLength(measured(millimetres(value), u))

/** Lines and not a table: no figure is to lose its unit for want of room. */
const printerLines = (row: PrinterRowJson): readonly string[] => {
  const { feed_factor: factor, start_allowance_mm: start, tail_mm: tail, change_mm: change } = row
  const told = [
    ...(row.retired === true ? ['retired'] : []),
    ...(row.firmware === undefined ? [] : [`firmware ${row.firmware}`]),
    ...(factor === undefined ? [] : [`feed factor ${formatMeasured(factor, '').trim()}`]),
    ...(start === undefined ? [] : [`start ${lengthOf(start)}`]),
    ...(tail === undefined ? [] : [`tail ${lengthOf(tail)}`]),
    ...(change === undefined ? [] : [`change ${lengthOf(change)}`]),
    ...(row.motion === undefined
      ? []
      : [`motion told (${row.motion.corner ?? 'no corner value'})`]),
  ]
  const says = told.length === 0 ? 'nothing told: what is usual is taken' : told.join(', ')
  return [`  ${row.id}  ${harmless(row.name)}`, wrap(harmless(says), '         ')]
}
