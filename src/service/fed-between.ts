import type { FedOf } from '../ledger/index.ts'
import {
  accept,
  type Measured,
  measured,
  type Outcome,
  refuse,
  type Share,
  share,
} from '../units/index.ts'
import { changeBeyond } from './change-refusals.ts'

/**
 * The share that a reel fed between changes. It took over at the end of a layer, and the next one does at the
 * end of a later one; where it ran dry, that was anywhere in its last layer.
 *
 * @returns `beyond_print`, `change_out_of_order` where the print had stopped before
 */
export const fedBetween = (
  tool: FedOf,
  { after, to }: { readonly after?: number | undefined; readonly to?: number | undefined },
  { ranDry, stop }: { readonly ranDry: boolean; readonly stop: Measured<Share> | undefined },
): Outcome<Measured<Share>> => {
  const count = tool.layerEnd_mm.length
  for (const layer of [after, to]) {
    const beyond = layer === undefined ? undefined : changeBeyond(layer, count)
    if (beyond !== undefined) return refuse(beyond)
  }
  const endOf = (layer: number): number => tool.layerEnd_mm[layer - 1]! / tool.peak_mm
  const from = after === undefined ? 0 : endOf(after)
  const end = to === undefined ? (stop ?? measured(share(1))) : measured(share(endOf(to)))
  if (stop !== undefined && [after, to].some((at) => at !== undefined && endOf(at) > stop.value)) {
    return refuse({
      code: 'change_out_of_order',
      message: `It stopped before layer ${to ?? after} was done, after which reels are said to have been changed. Look at the numbers again.`,
      received: String(to ?? after),
    })
  }
  if (!ranDry || to === undefined) return accept(measured(share(end.value - from), end.u))
  const begun = Math.max(to === 1 ? tool.startMacro_mm / tool.peak_mm : endOf(to - 1), from)
  const width = end.value - begun
  return accept(measured(share(begun + width / 2 - from), width / Math.sqrt(12)))
}
