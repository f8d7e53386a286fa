import type { ScaleRowJson } from '../contract/index.ts'
import { type RowTold, type ScaleTold, scaleChangeOf, scaleRowOf } from '../service/index.ts'
import type { Outcome } from '../units/index.ts'
import { addCommand, changeCommand, listCommand } from './catalogue-command.ts'
import type { LedgerText } from './open-ledger.ts'
import { parseScale } from './parse-reel.ts'
import { upTo } from './say.ts'
import { taken } from './taken.ts'

/** What was typed after `scale add` and `scale change`. */
export interface ScaleText extends LedgerText {
  readonly name?: string
  readonly step?: string
  readonly repeat?: string
  readonly gain?: string
  readonly class?: string
  readonly retired?: boolean
  readonly note?: string
}

const modelKeys = ['class', 'step', 'repeat', 'gain'] as const

/** The model as one option of `check` takes it, from those typed here. */
const modelOf = <T>(typed: ScaleText, of: (told: ScaleTold) => Outcome<T>): T => {
  const given = modelKeys.filter((key) => typed[key] !== undefined)
  const text = given.map((key) => `${key}=${typed[key] ?? ''}`).join(', ')
  const option = given.map((key) => `--${key}`).join(', ')
  return taken(of(text === '' ? {} : parseScale(text, option)), option)
}

const othersOf = ({ name, retired, note }: ScaleText): Partial<RowTold<'scale'>> => ({
  ...(name !== undefined && { name }),
  ...(retired === true && { retired: true as const }),
  ...(note !== undefined && { note }),
})

/** `reelreckon scale add` */
export const scaleAddCommand = (name: string, typed: ScaleText): Promise<void> =>
  addCommand('scale', typed, async () => ({
    ...othersOf(typed),
    ...modelOf(typed, scaleRowOf),
    name,
  }))

/** `reelreckon scale change`; what is not told of the model stays. */
export const scaleChangeCommand = (scale: string, typed: ScaleText): Promise<void> =>
  changeCommand('scale', scale, typed, async () => ({
    ...othersOf(typed),
    ...modelOf(typed, scaleChangeOf),
  }))

/** `reelreckon scale list` */
export const scaleListCommand = (typed: LedgerText): Promise<void> =>
  listCommand('scale', typed, ['name', 'step', 'repeats to', 'slope', ''], (row: ScaleRowJson) => [
    row.name,
    `${upTo(row.step_g, 3)} g`,
    `${upTo(row.repeatability_g, 3)} g`,
    `${upTo(row.gain * 100, 3)} %`,
    row.retired === true ? 'retired' : '',
  ])
