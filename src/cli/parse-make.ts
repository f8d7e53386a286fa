import type { MakeRowJson } from '../contract/index.ts'
import { parseMass } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { parseDiameter } from './parse-file-options.ts'
import { parseCarrier } from './parse-reel.ts'
import { taken } from './taken.ts'

/** What was typed of a make. */
export interface MakeText {
  readonly maker?: string
  readonly material?: string
  readonly label?: string
  readonly diameter?: string
  readonly carrier?: string
}

/** What of a make needs no look into the ledger. */
export interface MakeParts {
  readonly maker?: string
  readonly nominal_diameter_mm?: number
  readonly label_net_g?: number
  readonly carrier?: NonNullable<MakeRowJson['carrier']>
}

/** @throws Fault of wrong usage */
export const parseMake = ({ maker, label, diameter, carrier }: MakeText): MakeParts => ({
  ...(maker !== undefined && { maker }),
  ...(diameter !== undefined && { nominal_diameter_mm: parseDiameter(diameter, '--diameter') }),
  ...(label !== undefined && { label_net_g: parseLabel(label) }),
  ...(carrier !== undefined && { carrier: parseCarrier(carrier, '--carrier') }),
})

/** Net mass on a label, g. @throws Fault of wrong usage */
export const parseLabel = (typed: string): number => {
  const { value, u } = taken(parseMass(typed), '--label')
  if (u === 0 && value > 0) return value
  throw usageFault(
    u === 0 ? 'not_positive' : 'no_uncertainty_here',
    '--label: write the mass that is printed there, without ±, as 1kg. How far makers fill off it is reckoned with.',
    '--label',
  )
}
