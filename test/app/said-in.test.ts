import { assert, constantFrom, integer, property } from 'fast-check'
import { expect, test } from 'vitest'
import { saidIn } from '../../src/app/strings/said-in.ts'

/** NIST Handbook 44, appendix C: 1 avoirdupois ounce is 28.349 523 125 g, exactly. */
const ounce_g = 28.349523125

const plain = (text: string): string => text.replaceAll('\u00a0', ' ')

test.each([
  ['It takes 171 ± 4 g of it.', 'It takes 6.03 ± 0.14 oz of it.'],
  ['weighed 402 g on the kitchen scale', 'weighed 14.18 oz on the kitchen scale'],
  ['weighed 402.5 g', 'weighed 14.198 oz'],
  ['out by -3 g', 'out by -0.11 oz'],
  ['between 12 and 14 g', 'between 0.42 and 0.49 oz'],
  ['12 to 14 g.', '0.42 to 0.49 oz.'],
  ['between 0.1 and 50,000 g. Check', 'between 0.004 and 1763.7 oz. Check'],
  ['1 kg in all', '35.27 oz in all'],
  ['12 ± 1,200 g', '0 ± 40 oz'],
  ['reel A-3 and 12 g', 'reel A-3 and 0.42 oz'],
  ['12.40 ± 0.05 kg', '437.4 ± 1.8 oz'],
  ['the 1000 g carrier lacks 12 g to be sure', 'the 35.27 oz carrier lacks 0.42 oz to be sure'],
])('%s', (sentence, said) => {
  expect(plain(saidIn(sentence, 'oz'))).toBe(said)
  expect(plain(saidIn(sentence, 'g'))).toBe(sentence)
})

test.each([
  'It tells 2.98 ± 0.05 g/m, and 3.1 g/m is believed.',
  'density 1.24 ± 0.01 g/cm³',
  '2 g of water per kg',
  '"402 g" can be read as two figures',
  'Take back “the 250 g hook”?',
  'K7RMY is on T0, layer 12 gone',
  'of version 2 gcode',
  'of PETG-7 g, 2026-03-12 g, 7 g-code',
  'reel A-3 and T1 hold',
  'read 2 gzip members',
  'within 5 m, 30 °C, 12 h',
])('nothing is changed in: %s', (sentence) => {
  expect(saidIn(sentence, 'oz')).toBe(sentence)
})

test('no end of a line tears a figure from its unit', () => {
  expect(saidIn('It takes 171 ± 4 g of it.', 'g')).toBe('It takes 171\u00a0±\u00a04\u00a0g of it.')
})

test('what is said in ounces is the mass, as fine as it was told', () => {
  assert(
    property(integer({ min: 0, max: 99_999 }), constantFrom(0, 1, 2), (count, places) => {
      const mass_g = count / 10 ** places
      const said = Number.parseFloat(saidIn(`${mass_g.toFixed(places)} g`, 'oz'))
      expect(Math.abs(said * ounce_g - mass_g)).toBeLessThanOrEqual(10 ** -places / 2 + 1e-9)
    }),
  )
})
