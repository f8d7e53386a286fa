import { keepAbove, marginal, reelPosterior, shelfNames } from '../estimate/index.ts'
import {
  type Grams,
  type GramsPerMetre,
  grams,
  gramsPerMetre,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
} from '../units/index.ts'
import type { ShelfView } from './shelf-view.ts'

/** What is believed of a reel. */
export interface ReelNow {
  readonly net: Measured<Grams>
  /** The same as a length, with what net and linear density have in common. */
  readonly length: Measured<Millimetres>
  readonly tare: Measured<Grams>
  readonly linearDensity: Measured<GramsPerMetre>
}

/**
 * What is believed of a reel, given that it holds no less than nothing.
 *
 * @throws DomainError `unknown_id`
 */
export const reelNow = ({ estimate }: Pick<ShelfView, 'estimate'>, reel: string): ReelNow => {
  const joint = keepAbove(reelPosterior(estimate, reel), { terms: { [shelfNames.net]: 1 } }, 0)
  const form = (terms: Readonly<Record<string, number>>): Measured => marginal(joint, { terms })
  const net = form({ [shelfNames.net]: 1 })
  const tare = form({ [shelfNames.tare]: 1 })
  const perMetre = form({ [shelfNames.linearDensity]: 1 })
  const metres = net.value / perMetre.value
  const { u: ofMetres } = form({
    [shelfNames.net]: 1 / perMetre.value,
    [shelfNames.linearDensity]: -metres / perMetre.value,
  })
  return {
    net: measured(grams(net.value), net.u),
    length: measured(millimetres(metres * 1000), ofMetres * 1000),
    tare: measured(grams(tare.value), tare.u),
    linearDensity: measured(gramsPerMetre(perMetre.value), perMetre.u),
  }
}
