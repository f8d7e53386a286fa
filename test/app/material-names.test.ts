import { expect, test } from 'vitest'
import { labelsOf } from '../../src/app/bench/labels-of.ts'
import { materialNamesIn } from '../../src/app/field/material-names.ts'
import { filterReels, wordsOf } from '../../src/app/shelf/filter-reels.ts'
import { slateWords } from '../../src/app/strings/slate-words.ts'
import type { CatalogueRowJson, RecordedJson, WaitingTellJson } from '../../src/contract/index.ts'

const changed_at = '2026-03-01T12:00:00.000Z'
const rows: readonly CatalogueRowJson[] = [
  { kind: 'material', id: 'R5XJ4', changed_at, name: 'Seaglass blend' },
  { kind: 'make', id: 'M1', changed_at, maker: 'Gannet', name: 'Glint', material: 'R5XJ4' },
  { kind: 'make', id: 'M2', changed_at, maker: 'Gannet', name: 'Plain', material: 'petg' },
  { kind: 'make', id: 'M3', changed_at, maker: 'Gannet', name: 'Odd' },
]
const named = materialNamesIn(rows)

test.each([
  ['R5XJ4', 'Seaglass blend'],
  ['petg', 'PETG'],
  ['gone', 'gone'],
])('%s is called %s', (id, name) => {
  expect(named(id)).toBe(name)
})

test('a label bears the name of the material', () => {
  const facts = ['M1', 'M2', 'M3'].map((make, k) => ({
    kind: 'opened',
    id: `F${k}`,
    reel: `R${k}`,
    make,
    at: changed_at,
    recorded_at: changed_at,
  })) as unknown as RecordedJson['facts']
  const answer = { facts, rows: [] } as unknown as RecordedJson
  expect(labelsOf(answer, rows, named).map(({ material }) => material)).toEqual([
    'Seaglass blend',
    'PETG',
    null,
  ])
})

test('the slate says the name of the material that a print wants', () => {
  const waiting = {
    row: { tools: [{ tool: 0, material: 'R5XJ4' }] },
    tools: [{ tool: 0 }],
    takes: null,
  } as unknown as WaitingTellJson
  expect(slateWords.wants(waiting, new Map(), named)).toBe('Seaglass blend, any colour')
})

test('a reel is found by the name of its material', () => {
  const reel = {
    id: 'A',
    make: null,
    material: 'R5XJ4',
    material_name: 'Seaglass blend',
    diameter_mm: 1.75,
    colour: null,
    srgb: null,
    lot: null,
    place: null,
    state: 'new' as const,
  }
  expect(filterReels([{ reel }], [wordsOf({ reel })], 'seaglass')).toHaveLength(1)
  expect(filterReels([{ reel }], [wordsOf({ reel })], 'driftwood')).toHaveLength(0)
})
