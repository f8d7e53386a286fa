import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { FactJson } from '../../src/contract/index.ts'
import { describeFact, ledgerNames } from '../../src/ledger/index.ts'
import { arbitraryFact } from './arbitrary-records.ts'
import {
  drew,
  fact,
  grey,
  kitchen,
  nobody,
  opened,
  putRight,
  quayside,
  rows,
  tilde,
  weighed,
} from './bench-records.ts'

const print = 'a'.repeat(64)
const names = ledgerNames(rows, [{ id: print, file: 'hook.gcode' }])
const weighing = { scale: kitchen.id, reading_g: 422 }
const one = weighed(1, 400)
const size = (value: number) => ({ value, u: 1 })

test.each<readonly [string, FactJson]>([
  ['weighed 422 g on the kitchen scale', weighed(1, 422)],
  [
    'weighed 422 g on the kitchen scale, by Tilde: with its clip',
    { ...weighed(1, 422), by: tilde.id, note: 'with its clip' },
  ],
  [
    `weighed 422 g on the ${nobody}`,
    { ...weighed(1, 422), weighing: { ...weighing, scale: nobody } },
  ],
  [
    'weighed 422.0 ± 2.0 g on the kitchen scale, of which 12.0 ± 1.0 g is something else',
    { ...weighed(1, 422), weighing: { ...weighing, u_g: 2, extra_g: { value: 12, u: 1 } } },
  ],
  [
    'weighed 422 g on the kitchen scale, taken although 3.4 standard deviations off what was expected',
    { ...weighed(1, 422), accepted_off: -3.41 },
  ],
  [
    'weighed 422 g on the kitchen scale, taken although over 50 standard deviations off what was expected',
    { ...weighed(1, 422), accepted_off: 244.9 },
  ],
  [
    'trimmed 600.0 ± 1.0 g, taken although 8.0 standard deviations more than it was believed to hold',
    fact(1, { kind: 'trimmed', reel: grey, mass_g: size(600), accepted_off: 7.96 }),
  ],
  [
    `fed 3.00 m on ${nobody}, taken although over 50 standard deviations more than it was believed to hold`,
    fact(1, { kind: 'drew', reel: grey, printer: nobody, length_mm: 3000, accepted_off: 61 }),
  ],
  ['opened: Tessamund Quayside, 1000 g on the label', opened(1)],
  [
    'opened, part-used already: Tessamund Quayside, gull grey, lot Q-1, bought for 19.50 EUR, kept at rack',
    fact(1, {
      kind: 'opened',
      reel: grey,
      make: quayside.id,
      part_used: true,
      colour: { name: 'gull grey' },
      lot: 'Q-1',
      price: { amount: '19.50', currency: 'EUR' },
      place: 'rack',
    }),
  ],
  [
    'its empty carrier (Tessamund Quayside) weighed 422 g on the kitchen scale',
    fact(1, { kind: 'carrier-weighed', make: quayside.id, weighing }),
  ],
  ['fed 84.21 m on Gull', drew(1, 84_213.5)],
  ['fed 0.38 m on Gull', drew(1, 379.457)],
  ['fed 3.2 mm on Gull', drew(1, 3.216)],
  ['fed 0.50 m on Gull as tool 1 for hook.gcode', { ...drew(1, 500), tool: 1, print }],
  [
    'began to feed 0.50 m on Gull, stopped in layer 3, 50 ± 6 % of it fed',
    { ...drew(1, 500), stopped_at: { layer: 3 }, share: { value: 0.5, u: 0.06 } },
  ],
  [
    'fed part of 0.50 m on Gull, to the end of layer 17, 20.5 % of it fed',
    { ...drew(1, 500), layers: { to: 17 }, share: { value: 0.205_132, u: 0 } },
  ],
  [
    'fed part of 0.50 m on Gull, layers 18 to 40, 20 ± 6 % of it fed',
    {
      ...drew(1, 500),
      layers: { after: 17, to: 40 },
      stopped_at: { layer: 52 },
      share: { value: 0.2, u: 0.06 },
    },
  ],
  ['trimmed 200 ± 5 mm', fact(1, { kind: 'trimmed', reel: grey, length_mm: { value: 200, u: 5 } })],
  ['trimmed 3 g', fact(1, { kind: 'trimmed', reel: grey, mass_g: { value: 3, u: 0 } })],
  ['emptied, what was left unmeasured', fact(1, { kind: 'emptied', reel: grey })],
  [
    'ran dry, with a tail of 430 mm',
    fact(1, { kind: 'ran-dry', reel: grey, tail_mm: { value: 430, u: 0 } }),
  ],
  [
    'measured its diameter at 2 places and a density of 1.250 ± 0.010 g/cm³',
    fact(1, {
      kind: 'measured',
      reel: grey,
      calipers: {
        places_mm: [
          [1.74, 1.75],
          [1.73, 1.75],
        ],
      },
      density_g_per_cm3: { value: 1.25, u: 0.01 },
    }),
  ],
  [
    'measured its winding: 120.0 ± 1.0 mm over a hub of 80.0 ± 1.0 mm, 50.0 ± 1.0 mm wide',
    fact(1, {
      kind: 'measured',
      reel: grey,
      winding: { hub_mm: size(80), outer_mm: size(120), width_mm: size(50) },
    }),
  ],
  [
    'Tessamund Quayside by its sheet: tare 210 g',
    fact(1, {
      kind: 'data-sheet',
      make: quayside.id,
      source: 'its sheet',
      tare_g: { value: 210, u: 0 },
    }),
  ],
  ['dried at 55 °C for 6 h', fact(1, { kind: 'dried', reel: grey, temperature_c: 55, hours: 6 })],
  [
    'moved to box 2, into dry air',
    fact(1, { kind: 'moved', reel: grey, place: 'box 2', air: 'dry' }),
  ],
  ['left the shelf: given away', fact(1, { kind: 'retired', reel: grey, reason: 'given away' })],
  [`put right fact ${one.id.match(/.{3}/g)?.join('-')}: misread`, putRight(2, one.id)],
])('%s', (words, said) => {
  expect(describeFact(said, names)).toBe(words)
})

test('what is called after a mass stands in quotes: it is no figure of the fact', () => {
  const called = ledgerNames(rows, [{ id: print, file: 'clip 20 g v2.gcode' }])
  const fine = { ...called, scale: () => 'the 0.1 g scale', make: () => 'Tessamund Quayside 750g' }
  expect(describeFact({ ...weighed(1, 422), note: 'hook of 38 g off' }, fine)).toBe(
    'weighed 422 g on “the 0.1 g scale”: “hook of 38 g off”',
  )
  expect(describeFact(opened(1), fine)).toMatch(/^opened.*: “Tessamund Quayside 750g”/)
  expect(describeFact({ ...drew(1, 4000), print }, fine)).toContain('for “clip 20 g v2.gcode”')
})

test('whatever a fact holds, it is one line without gaps', () => {
  fc.assert(
    fc.property(arbitraryFact, (said) => {
      const words = describeFact(said, names)
      expect(words).not.toMatch(/undefined|null|NaN|\[object|\n/)
      expect(words.length).toBeGreaterThan(5)
    }),
  )
})
