import type { Kind, Unit } from './kind.ts'

/** Units in which a bare length may be meant. */
export type LengthUnit = 'mm' | 'cm' | 'm' | 'in' | 'ft'

// Exact by definition: international yard and pound agreement, 1959.
const inch: Unit = { times: 254, over: 10 }
const foot: Unit = { times: 3048, over: 10 }

const units: ReadonlyMap<string, Unit> = new Map<string, Unit>([
  ['mm', {}],
  ['cm', { tens: 1 }],
  ['m', { tens: 3 }],
  ['km', { tens: 6 }],
  ['um', { tens: -3 }],
  ['in', inch],
  ['inch', inch],
  ['inches', inch],
  ['"', inch],
  ['ft', foot],
  ['foot', foot],
  ['feet', foot],
  ["'", foot],
])

/** Lengths in millimetres, with the unit of a number that comes without one. */
export const lengthKind = (bare: LengthUnit, domain: Kind['domain']): Kind => ({
  noun: 'length',
  units,
  bare: units.get(bare) ?? {},
  example: bare === 'm' ? '62 m' : '1.75 mm',
  domain,
})
