import { describe, expect, test } from 'vitest'
import {
  type CatalogueRowJson,
  type FactJson,
  isCatalogueRow,
  isFact,
  type LedgerRecord,
} from '../../src/contract/index.ts'
import { estimateShelf, marginal, reelPosterior, shelfNames } from '../../src/estimate/index.ts'
import {
  guessReelMapping,
  ledgerTables,
  reelsFromTable,
  shelfOf,
  type TableContext,
  type TableRow,
} from '../../src/ledger/index.ts'
import { idSource, kitchen, noon, quayside, rows } from './bench-records.ts'

const now = noon(20)
const context = (more: Partial<TableContext> = {}): TableContext => ({
  rows,
  facts: [],
  now,
  newId: idSource(11),
  scale: kitchen.id,
  ...more,
})

const take = (
  header: readonly string[],
  table: readonly (readonly string[])[],
  more: Partial<TableContext> = {},
): readonly TableRow[] => {
  const taken = reelsFromTable(header, table, guessReelMapping(header).mapping, context(more))
  if (!taken.ok) throw new Error(taken.refusal.message)
  return taken.value
}

const recordsOf = (taken: readonly TableRow[]): readonly LedgerRecord[] =>
  taken.flatMap(({ outcome }) => (outcome.kind === 'new' ? outcome.records : []))

const header = [
  'maker',
  'make',
  'material',
  'label',
  'gross',
  'colour',
  'srgb',
  'place',
  'lot',
  'price',
  'opened',
]
const grey = [
  'tessamund',
  ' QUAYSIDE',
  'PLA',
  '1 kg',
  '704',
  'gull grey',
  '#8A8F94',
  'rack',
  'Q-1',
  '19,50 €',
  '2026-03-02',
]
const black = ['Ostrelle', 'Mooring', 'petg', '750', '512.5 g', 'tar', '', '', '', '', '1.3.2026']

test('a row becomes a reel of its make', () => {
  const [row] = take(header, [grey])
  expect(row).toMatchObject({ row: 2, outcome: { kind: 'new' } })
  const [opened, weighed, ...rest] = recordsOf([row!])
  expect(rest).toEqual([])
  expect(opened).toMatchObject({
    kind: 'opened',
    make: quayside.id,
    at: noon(2),
    recorded_at: now,
    label_net_g: 1000,
    part_used: true,
    colour: { name: 'gull grey', srgb: '#8a8f94' },
    place: 'rack',
    lot: 'Q-1',
    price: { amount: '19.50', currency: 'EUR' },
  })
  expect(weighed).toMatchObject({
    kind: 'weighed',
    at: now,
    weighing: { scale: kitchen.id, reading_g: 704 },
  })
})

test('a new make comes once, with the first row that needs it', () => {
  const taken = take(header, [black, black, grey])
  const makes = recordsOf(taken).filter(isCatalogueRow)
  expect(makes).toEqual([
    expect.objectContaining({ kind: 'make', maker: 'Ostrelle', name: 'Mooring', material: 'petg' }),
  ])
  expect(taken.map(({ outcome }) => outcome.kind === 'new' && outcome.records.length)).toEqual([
    3, 2, 2,
  ])
})

test('a make that came with a refused row comes with the next', () => {
  const bad = black.with(3, 'much')
  const taken = take(header, [bad, black])
  expect(taken.map(({ outcome }) => outcome.kind)).toEqual(['refused', 'new'])
  expect(recordsOf(taken).filter(isCatalogueRow)).toHaveLength(1)
})

test('a row that tells neither label nor weighing of a reel is refused', () => {
  const bare = black.with(3, '').with(4, '')
  const [row] = take(header, [bare])
  expect(row).toMatchObject({ outcome: { kind: 'refused', refusal: { code: 'mass_needed' } } })
  expect(take(header, [black.with(3, '')])[0]).toMatchObject({ outcome: { kind: 'new' } })
})

describe('the same table again', () => {
  const sheet = [grey, black, black]
  const first = recordsOf(take(header, sheet))
  const more = {
    rows: [...rows, ...first.filter(isCatalogueRow)] as readonly CatalogueRowJson[],
    facts: first.filter(isFact) as readonly FactJson[],
    newId: idSource(12),
  }
  test('brings nothing new, and says so', () => {
    const again = take(header, sheet, more)
    expect(again.map(({ outcome }) => outcome.kind)).toEqual(['there', 'there', 'there'])
    const reels = again.map(({ outcome }) => (outcome.kind === 'there' ? outcome.reel : ''))
    expect(new Set(reels).size).toBe(3)
  })
  test('with one alike reel more brings that one', () => {
    const again = take(header, [...sheet, black], more)
    expect(again.map(({ outcome }) => outcome.kind)).toEqual(['there', 'there', 'there', 'new'])
  })
  test('with another lot brings a new reel', () => {
    expect(take(header, [grey.with(8, 'Q-2')], more)[0]?.outcome.kind).toBe('new')
  })
})

test('a second make of one name and another material is refused, in the ledger or in the table', () => {
  const [first, second] = take(header, [black, black.with(2, 'PLA')])
  expect(first!.outcome.kind).toBe('new')
  expect(second!.outcome).toMatchObject({
    kind: 'refused',
    refusal: {
      code: 'make_differs',
      message:
        'Row 3, column "material": Ostrelle Mooring is known with another material: PETG, not PLA. Put the material right, or give the make a name of its own.',
    },
  })
  const there = recordsOf([first!])
  const more = { rows: [...rows, ...there.filter(isCatalogueRow)], newId: idSource(12) }
  expect(take(header, [black.with(2, 'PLA')], more)[0]!.outcome.kind).toBe('refused')
})

test('a make of which a row tells nothing is one, and there when the table comes again', () => {
  const unnamed = black.with(0, '').with(1, '').with(2, '')
  const unmaterial = black.with(2, '')
  const sheet = [unnamed, unnamed.with(5, 'rope'), unmaterial]
  const first = recordsOf(take(header, sheet))
  expect(first.filter(isCatalogueRow).map(({ kind }) => kind)).toEqual(['make', 'make'])
  const more = {
    rows: [...rows, ...first.filter(isCatalogueRow)],
    facts: first.filter(isFact),
    newId: idSource(12),
  }
  const again = take(header, sheet, more)
  expect(again.map(({ outcome }) => outcome.kind)).toEqual(['there', 'there', 'there'])
})

/** What stands in the ledger after a table was taken. */
const after = (sheet: readonly (readonly string[])[], more: Partial<TableContext> = {}) => {
  const records = recordsOf(take(header, sheet))
  return {
    rows: [...rows, ...records.filter(isCatalogueRow)],
    facts: records.filter(isFact),
    newId: idSource(12),
    ...more,
  }
}

const kinds = (taken: readonly TableRow[]) => taken.map(({ outcome }) => outcome.kind)

describe('reels that look alike', () => {
  const undated = black.with(10, '')
  test('a row without a day is there on another day too', () => {
    expect(kinds(take(header, [undated], after([undated], { now: noon(21) })))).toEqual(['there'])
    expect(kinds(take(header, [undated], after([black])))).toEqual(['there'])
  })
  test('and leaves the reel with a day to the row with that day', () => {
    expect(kinds(take(header, [undated, black], after([black, undated])))).toEqual([
      'there',
      'there',
    ])
    expect(kinds(take(header, [black.with(10, '2.3.2026')], after([black])))).toEqual(['new'])
  })
  test('the label may stand with the make alone', () => {
    const make = { ...quayside, label_net_g: 1000 }
    const some = after([grey.with(3, '')], {
      rows: rows.map((row) => (row === quayside ? make : row)),
    })
    expect(kinds(take(header, [grey], some))).toEqual(['there'])
  })
  test('are taken where the person says so', () => {
    expect(kinds(take(header, [black], after([black], { alike: true })))).toEqual(['new'])
  })
})

describe('what a ledger wrote itself', () => {
  test('a make by its id is that make', () => {
    const [opened, ...rest] = recordsOf(take(['make', 'label'], [[quayside.id, '1000']]))
    expect(opened).toMatchObject({ kind: 'opened', make: quayside.id })
    expect(rest).toEqual([])
  })
  test('the table of reels comes back as what it was', () => {
    const records = recordsOf(take(header, [grey, black]))
    const more = {
      rows: [...rows, ...records.filter(isCatalogueRow)],
      facts: records.filter(isFact),
    }
    const reels = ledgerTables(more.rows, more.facts, []).find(({ name }) => name === 'reels')!
    const cells = reels.rows.map((row) => row.map(String))
    expect(take(reels.columns, cells, more).map(({ outcome }) => outcome.kind)).toEqual([
      'there',
      'there',
    ])
    const elsewhere = recordsOf(take(reels.columns, cells, { rows: [kitchen] }))
    expect(elsewhere.filter(isCatalogueRow).map((row) => 'name' in row && row.name)).toEqual([
      quayside.name,
      'Mooring',
    ])
    expect(guessReelMapping(reels.columns).said).toContain(
      '"last_gross_g" is left out: it may not be what the scale shows now. Say which.',
    )
  })
})

describe('refused with row and column', () => {
  test.each<readonly [code: string, column: number, cell: string, message: RegExp]>([
    ['number_missing', 3, 'much', /^Row 3, column "label": A number is missing/],
    ['mass_too_small', 3, '1', /read as 1 g, which is too little for a reel\. Write the unit/],
    ['mass_too_small', 4, '0', /column "gross"/],
    ['material_unknown', 2, 'unobtainium', /^Row 3, column "material": "unobtainium"/],
    ['srgb_unreadable', 6, 'blue', /column "srgb"/],
    ['price_unreadable', 9, 'dear', /column "price": "dear" is no price/],
    ['currency_missing', 9, '19.50', /names no currency/],
    ['day_ambiguous', 10, '3/1/2026', /may have its day or its month first/],
    ['day_unreadable', 10, '31.2.2026', /no day of the calendar/],
    ['day_unreadable', 10, 'in spring', /no day/],
    ['in_the_future', 10, '2027-01-01', /^Row 3: A fact can not be dated 2027-01-01/],
    ['ledger_record', 7, 'a\u0007b', /^Row 3: .*"place" is/],
    ['impossible_fact', 3, '300 kg', /net mass on a label can not be/],
  ])('%s: %i %s', (code, column, cell, message) => {
    const [first, second, third] = take(header, [grey, grey.with(column, cell), black])
    expect([first?.outcome.kind, third?.outcome.kind]).toEqual(['new', 'new'])
    expect(second).toMatchObject({
      row: 3,
      outcome: { kind: 'refused', refusal: { code, line: 3 } },
    })
    expect(second?.outcome.kind === 'refused' && second.outcome.refusal.message).toMatch(message)
  })
  test('a scale or a person that is not there', () => {
    const taken = take(header, [grey], { by: 'XXXXX' })
    expect(taken[0]?.outcome).toMatchObject({ kind: 'refused' })
  })
})

test('rows without anything in the mapped columns are blank', () => {
  expect(
    take(['make', 'whim'], [['', 'x'], [], [' ', '']]).map(({ outcome }) => outcome.kind),
  ).toEqual(['blank', 'blank', 'blank'])
})

test.each([
  ['column_needed', ['gross'], {}],
  ['scale_needed', ['make', 'gross'], { scale: undefined }],
] as const)('%s', (code, heads, more) => {
  const { scale, ...rest } = context()
  const given = 'scale' in more ? rest : { ...rest, scale: scale! }
  expect(reelsFromTable(heads, [], guessReelMapping(heads).mapping, given)).toMatchObject({
    ok: false,
    refusal: { code },
  })
})

test('the unit may stand in the name of the column', () => {
  const [row] = take(['make', 'label (kg)', 'gross_g'], [['Quayside', '0.75', '512']])
  expect(recordsOf([row!]).filter(isFact)).toMatchObject([
    { label_net_g: 750 },
    { weighing: { reading_g: 512 } },
  ])
})

/** What the estimate believes is on the reel of a row. */
const netOf = (heads: readonly string[], cells: readonly string[], more: object = {}) => {
  const records = recordsOf(take(heads, [cells], more))
  const shelf = shelfOf([...rows, ...records.filter(isCatalogueRow)], records.filter(isFact))
  expect(shelf.left).toEqual([])
  const joint = reelPosterior(
    estimateShelf(shelf.catalogue, shelf.facts),
    shelf.catalogue.reels[0]!.id,
  )
  const { value: net, u } = marginal(joint, { terms: { [shelfNames.net]: 1 } })
  return { net, u }
}

describe('what is on it is not more certain than the table says', () => {
  test('the label alone says what it is at most', () => {
    const { net, u } = netOf(['make', 'label'], ['x', '1000'])
    expect(net).toBeLessThan(500)
    expect(u).toBeGreaterThan(1000 / Math.sqrt(12))
  })
  test('the label of an unused reel is what is on it', () => {
    const { net, u } = netOf(['make', 'label'], ['x', '1000'], { unused: true })
    expect(net).toBeCloseTo(1005, 0)
    expect(u).toBeLessThan(30)
  })
  test('gross alone leaves the tare open', () => {
    const { net, u } = netOf(['make', 'label', 'gross'], ['x', '1000', '700'])
    expect(Math.abs(net - 450)).toBeLessThan(30)
    expect(u).toBeGreaterThan(40)
  })
  test('gross and gross when new tell the tare by the label', () => {
    const { net, u } = netOf(
      ['make', 'label', 'gross', 'gross when new'],
      ['x', '1000', '700', '1200'],
    )
    expect(Math.abs(net - 500)).toBeLessThan(15)
    expect(u).toBeLessThan(20)
  })
  test('gross when new alone says nothing of what is left', () => {
    const { net, u } = netOf(['make', 'label', 'gross when new'], ['x', '1000', '1200'])
    // Anything between nothing and the label.
    expect(net).toBeLessThan(500)
    expect(u).toBeGreaterThan(1000 / Math.sqrt(12))
  })
})

test('what is used up is left out, and what is new is full', () => {
  const heads = ['make', 'label', 'state']
  const table = [
    ['x', '1000', 'retired'],
    ['x', '1000', 'Empty'],
    ['x', '1000', 'new'],
    ['x', '1000', 'part-used'],
  ]
  const taken = take(heads, table)
  expect(kinds(taken)).toEqual(['gone', 'gone', 'new', 'new'])
  const partUsed = taken.map(({ outcome }) =>
    outcome.kind === 'new'
      ? outcome.records.some((one) => one.kind === 'opened' && one.part_used === true)
      : null,
  )
  expect(partUsed).toEqual([null, null, false, true])
})
