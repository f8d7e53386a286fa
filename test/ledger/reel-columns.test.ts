import { expect, test } from 'vitest'
import { guessReelMapping, namedReelMapping, reelColumns } from '../../src/ledger/index.ts'

test.each<readonly [header: readonly string[], mapping: object]>([
  [reelColumns.map(String), Object.fromEntries(reelColumns.map((column, i) => [column, i]))],
  [
    ['Brand', 'Product', 'Plastic', 'Color', 'Net weight (g)', 'Gross weight [kg]', 'Location'],
    { maker: 0, make: 1, material: 2, colour: 3, label_net: 4, gross: 5, place: 6 },
  ],
  [['Type', 'Material'], { material: 1 }],
  [['weight', 'net', '', 'whim'], {}],
])('%j', (header, mapping) => {
  expect(guessReelMapping(header).mapping).toEqual(mapping)
})

test('it says what it made of each column', () => {
  expect(guessReelMapping(['Brand', 'Weight', 'net', '', 'whim']).said).toEqual([
    '"Brand" is taken for the maker.',
    '"Weight" is left out: it may be gross or net. Say which.',
    '"net" is left out: it may be what the label says or what is left. Say which.',
    'Column 4, without a name, is left out.',
    '"whim" is left out.',
  ])
})

test('columns named by a person', () => {
  expect(namedReelMapping(['A', ' weight '], { gross: 'Weight', make: 'a' })).toEqual({
    ok: true,
    value: { make: 0, gross: 1 },
  })
  expect(namedReelMapping(['A', 'B'], { gross: 'C' })).toMatchObject({
    refusal: { code: 'column_missing', message: 'There is no column "C". The columns are A, B.' },
  })
  expect(namedReelMapping(['A', 'a'], { gross: 'a' })).toMatchObject({
    refusal: { code: 'column_twice' },
  })
})
