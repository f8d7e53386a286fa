import type { MaterialRowJson } from '../contract/index.ts'
import { findMaterial } from '../filament/index.ts'
import { formatMeasured, parseDensity, parseShare, withTypedDoubt } from '../units/index.ts'
import { addCommand, listCommand } from './catalogue-command.ts'
import { usageFault } from './fault.ts'
import type { LedgerText } from './open-ledger.ts'
import { taken } from './taken.ts'

/** What was typed after `material add`. */
export interface MaterialText extends LedgerText {
  readonly density?: string
  readonly waterShare?: string
  readonly note?: string
}

const figure = ({ value, u }: { value: number; u: number }): { value: number; u: number } => ({
  value,
  u,
})

/** `reelreckon material add` */
export const materialAddCommand = (name: string, typed: MaterialText): Promise<void> =>
  addCommand('material', typed, async () => {
    const { density, waterShare, note } = typed
    if (findMaterial(name).ok) {
      throw usageFault(
        'material_built_in',
        `${name} is in the built-in table: a make can name it as it is. A filled or blended one wants a name of its own.`,
      )
    }
    return {
      name,
      ...(density !== undefined && {
        density_g_per_cm3: figure(taken(withTypedDoubt(density, parseDensity), '--density')),
      }),
      ...(waterShare !== undefined && {
        water_share: figure(taken(withTypedDoubt(waterShare, parseShare), '--water-share')),
      }),
      ...(note !== undefined && { note }),
    }
  })

/** `reelreckon material list` */
export const materialListCommand = (typed: LedgerText): Promise<void> =>
  listCommand('material', typed, ['name', 'density', 'water'], (row: MaterialRowJson) => [
    row.name,
    row.density_g_per_cm3 === undefined ? '–' : formatMeasured(row.density_g_per_cm3, 'g/cm³'),
    row.water_share === undefined
      ? '–'
      : formatMeasured({ value: row.water_share.value * 100, u: row.water_share.u * 100 }, '%'),
  ])
