import { expect, test } from 'vitest'
import { OutOfTouch, ProblemFault } from '../../src/app/api/problem-fault.ts'
import { firstReels, isReelGone, withoutGone } from '../../src/app/check/first-reels.ts'
import { buffersOf } from '../../src/app/reading/buffers-of.ts'
import { filterReels, wordsOf } from '../../src/app/shelf/filter-reels.ts'
import { narrowReels, wide } from '../../src/app/shelf/narrow-reels.ts'
import { shelvesBehind, shelvesOf, sortReels } from '../../src/app/shelf/sort-reels.ts'
import { shelfWords } from '../../src/app/strings/shelf-words.ts'
import type { ListedReelJson, ToolRankingJson } from '../../src/contract/index.ts'

const reel = (
  id: string,
  material: string | null,
  colour: string,
  net: number | null,
): ListedReelJson => ({
  reel: {
    id,
    make: 'Tessamund',
    material,
    material_name: material?.toUpperCase() ?? null,
    diameter_mm: 1.75,
    colour,
    srgb: null,
    lot: null,
    place: null,
    state: 'part-used',
  },
  net_g: net === null ? null : { value: net, u: 3 },
  length_mm: net === null ? null : { value: 330 * net, u: 1000 },
  weighed_at: null,
  wound: { label_g: null, density_g_per_cm3: null, measured: null },
  contradicted: null,
})
const shelf = [
  reel('A', 'petg', 'coral red', 300),
  reel('B', 'pla', 'coral', 90),
  reel('C', 'pla', 'Slate', null),
  reel('D', null, 'slate', 20),
]
const ids = (reels: readonly ListedReelJson[]): string => reels.map((one) => one.reel.id).join('')

test.each([
  ['', 'ABCD'],
  ['coral', 'AB'],
  [' CORAL  petg', 'A'],
  ['slate', 'CD'],
  ['tessa pl', 'BC'],
  ['coral slate', ''],
])('%j finds %j', (typed, found) => {
  expect(ids(filterReels(shelf, shelf.map(wordsOf), typed))).toBe(found)
})

test('what is not known comes last, whichever way', () => {
  expect(ids(sortReels(shelf, 'net'))).toBe('DBAC')
  expect(ids(sortReels(shelf, 'net', true))).toBe('ABDC')
  expect(ids(sortReels(shelf, 'length'))).toBe('DBAC')
  expect(ids(sortReels(shelf, 'material', true))).toBe('BCAD')
})

test('shelves are of one material each, stubs first', () => {
  expect(shelvesOf(shelf).map(([material, reels]) => [material, ids(reels)])).toEqual([
    ['PETG', 'A'],
    ['PLA', 'BC'],
    [null, 'D'],
  ])
})

test('two materials of one name have a shelf each; one without a name goes by its id', () => {
  const own = reel('E', 'R5XJ4', 'moss', 40)
  const alike = { ...own, reel: { ...own.reel, material_name: 'PLA' } }
  expect(shelvesOf([...shelf.slice(1, 2), alike]).map(([name, on]) => [name, ids(on)])).toEqual([
    ['PLA', 'E'],
    ['PLA', 'B'],
  ])
  const { material_name: _name, ...before } = own.reel
  const kept = { ...own, reel: before as typeof own.reel }
  expect(shelvesOf([kept])[0]?.[0]).toBe('R5XJ4')
})

test('on each shelf what is gone comes last', () => {
  const [first, ...rest] = shelf.slice(1, 3).map((one) => one)
  const gone = { ...first!, reel: { ...first!.reel, state: 'retired' as const } }
  expect(shelvesOf([gone, ...rest]).map(([, reels]) => ids(reels))).toEqual(['CB'])
  expect(
    ['new', 'part-used', 'empty', 'retired'].map((state) => shelfWords.gone(state as 'new')),
  ).toEqual([null, null, 'empty', 'retired'])
})

test('what is not drawn is told shelf by shelf', () => {
  expect(shelvesBehind(shelf, 2)).toEqual([
    ['PLA', 1],
    [null, 1],
  ])
  expect(shelfWords.behind(2, shelvesBehind(shelf, 2))).toBe(
    '2 more reels: PLA 1, material not known 1.',
  )
  expect(shelvesBehind(shelf, 4)).toEqual([])
  expect(shelfWords.behind(276, null)).toBe('276 more reels.')
})

const ranking = (tool: number, names: string): ToolRankingJson => ({
  tool,
  needed_mm: 100,
  enough: names.length,
  close: 0,
  short: 0,
  reels: Array.from(names, (id) => ({
    reel: reel(id, 'pla', 'coral', 1).reel,
    verdict: 'enough',
    chance: 0.99,
    net_g: { value: 1, u: 1 },
    left_over_g: { value: 1, u: 1 },
    margin_g: { value: 1, u: 1 },
    contradicting: [],
    feeds_prints_on: [],
    next: null,
  })),
})

const none: ReadonlySet<string> = new Set()

test('a reel that a print is running on stands behind a free one of the same verdict only', () => {
  const busy = new Set(['A'])
  expect(firstReels([ranking(0, 'AB')], [], busy)).toEqual([{ tool: 0, reel: 'B' }])
  expect(firstReels([ranking(0, 'A')], [], busy)).toEqual([{ tool: 0, reel: 'A' }])
  const [one, other] = ranking(0, 'AB').reels
  if (one === undefined || other === undefined) throw new Error('There are two.')
  const tool = { ...ranking(0, 'AB'), reels: [one, { ...other, verdict: 'short' as const }] }
  expect(firstReels([tool], [], busy)).toEqual([{ tool: 0, reel: 'A' }])
})

test('each tool has the best reel that no other tool has, unless one is taken', () => {
  const tools = [ranking(0, 'AB'), ranking(1, 'AB'), ranking(2, 'A')]
  expect(firstReels(tools, [], none)).toEqual([
    { tool: 0, reel: 'A' },
    { tool: 1, reel: 'B' },
  ])
  expect(firstReels(tools, [{ tool: 2, reel: 'A', weighing: { reading_g: 400 } }], none)).toEqual([
    { tool: 0, reel: 'B' },
    { tool: 2, reel: 'A', weighing: { reading_g: 400 } },
  ])
  // One taken for a tool of the print before.
  expect(firstReels(tools.slice(0, 1), [{ tool: 7, reel: 'A' }], none)).toEqual([
    { tool: 0, reel: 'A' },
  ])
})

test('a reel that is gone is taken no longer, and another stands in its place', () => {
  // oxlint-disable-next-line unicorn/consistent-function-scoping -- stands beside what it is for
  const refused = (code: string): ProblemFault =>
    new ProblemFault({ type: 'about:blank', title: 'Refused', status: 422, detail: '', code })
  expect(isReelGone(refused('reel_empty'))).toBe(true)
  expect(isReelGone(refused('log_in_needed'))).toBe(false)
  expect(isReelGone(new OutOfTouch())).toBe(false)
  const tools = [ranking(0, 'BC'), ranking(1, 'BC')]
  const taken = [
    { tool: 0, reel: 'A' },
    { tool: 1, reel: 'B' },
  ]
  expect(withoutGone(tools, taken)).toEqual([{ tool: 1, reel: 'B' }])
  expect(firstReels(tools, withoutGone(tools, taken), none)).toEqual([
    { tool: 0, reel: 'C' },
    { tool: 1, reel: 'B' },
  ])
})

test('every buffer is found once', () => {
  const one = new Float64Array(4)
  const value = { a: [one, one.subarray(2), { b: new Uint8Array(1) }], c: null, d: 'text' }
  expect(buffersOf(value).map(({ byteLength }) => byteLength)).toEqual([32, 1])
})

test.each([
  [{}, 'ABCD'],
  [{ material: 'pla' }, 'BC'],
  [{ colour: 'slate' }, 'D'],
  [{ material: 'pla', colour: 'coral' }, 'B'],
  [{ likely: 'maybe' }, 'AB'],
  [{ likely: 'enough' }, 'A'],
  [{ likely: 'enough', material: 'pla' }, ''],
] as const)('%j leaves %j', (chosen, left) => {
  const clearing = new Map([
    ['A', { verdict: 'enough', chance: 0.99 }],
    ['B', { verdict: 'close', chance: 0.4 }],
    ['C', { verdict: 'short', chance: 0.01 }],
  ] as const)
  expect(ids(narrowReels(shelf, { ...wide, ...chosen }, clearing))).toBe(left)
})

test('a place leaves what stands there', () => {
  const [first, ...others] = shelf
  if (first === undefined) throw new Error('The shelf is empty.')
  const moved = [{ ...first, reel: { ...first.reel, place: 'rack' } }, ...others]
  expect(ids(narrowReels(moved, { ...wide, place: 'rack' }, null))).toBe('A')
})

test('without a print at hand none is left out for its chance', () => {
  expect(ids(narrowReels(shelf, { ...wide, likely: 'enough' }, null))).toBe('ABCD')
})
