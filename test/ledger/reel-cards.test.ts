import { describe, expect, test } from 'vitest'
import type { FactJson } from '../../src/contract/index.ts'
import { reelCards } from '../../src/ledger/index.ts'
import {
  drew,
  fact,
  grey,
  kitchen,
  noon,
  opened,
  putRight,
  quayside,
  rows,
  weighed,
  white,
} from './bench-records.ts'

const card = (facts: readonly FactJson[]) => reelCards(rows, facts).find(({ id }) => id === grey)

const emptied = fact(5, { kind: 'emptied', reel: grey } as const)
const ranDry = fact(5, { kind: 'ran-dry', reel: grey } as const)
const retired = fact(6, { kind: 'retired', reel: grey } as const)
const nothing = { ...drew(3, 500), share: { value: 0, u: 0 } }

describe('the state', () => {
  test.each<readonly [string, string, readonly FactJson[]]>([
    ['new', 'opened', []],
    ['new', 'weighed', [weighed(2, 1200)]],
    ['new', 'a print that never began', [nothing]],
    ['part-used', 'fed', [drew(2, 500)]],
    [
      'part-used',
      'trimmed',
      [fact(2, { kind: 'trimmed', reel: grey, length_mm: { value: 9, u: 0 } })],
    ],
    ['empty', 'emptied', [drew(2, 500), emptied]],
    ['empty', 'run dry', [drew(2, 500), ranDry]],
    ['empty', 'weighed after it was emptied', [emptied, weighed(6, 200)]],
    ['part-used', 'fed after it ran dry', [ranDry, drew(6, 100)]],
    ['empty', 'fed before it ran dry, written down after', [ranDry, drew(4, 100)]],
    ['retired', 'retired', [drew(2, 500), retired]],
    ['part-used', 'back on the shelf', [drew(2, 500), retired, putRight(7, retired.id)]],
    ['new', 'its draw put right', [nothing, putRight(4, nothing.id)]],
  ])('%s: %s', (state, _, facts) => {
    expect(card([opened(1), ...facts])?.state).toBe(state)
  })
  test('a scale that shows far less than when it was new says that some was fed', () => {
    const labelled = { ...opened(1), label_net_g: 1000 }
    expect(card([labelled, weighed(2, 990)])?.state).toBe('new')
    expect(card([labelled, weighed(2, 25)])?.state).toBe('part-used')
    const gross = { ...labelled, gross_when_new: { scale: kitchen.id, reading_g: 1240, u_g: 1 } }
    expect(card([gross, weighed(2, 1225)])?.state).toBe('new')
    expect(card([gross, weighed(2, 1100)])?.state).toBe('part-used')
    const wrong = weighed(2, 25)
    expect(card([labelled, wrong, putRight(3, wrong.id)])?.state).toBe('new')
  })
  test('a reel that came part-used is part-used', () => {
    expect(card([{ ...opened(1), part_used: true }])?.state).toBe('part-used')
  })
})

test('a card has what people look for', () => {
  const start = {
    ...opened(1),
    place: 'rack',
    lot: 'Q-1',
    colour: { name: 'gull grey' },
    price: { amount: '19.50', currency: 'EUR' },
  }
  const moved = fact(3, { kind: 'moved', reel: grey, place: 'dry box' } as const)
  const [early, late, wrong] = [weighed(2, 900), weighed(4, 800), weighed(5, 80)]
  const right = putRight(6, wrong.id)
  const found = card([start, late, early, wrong, moved, right, opened(1, white)])
  expect(found).toMatchObject({
    id: grey,
    make: quayside,
    colour: start.colour,
    lot: 'Q-1',
    place: 'dry box',
    price: start.price,
    lastWeighing: late,
    openedAt: noon(1),
    touchedAt: noon(4),
  })
  expect(found?.facts).toEqual([
    { fact: start },
    { fact: early },
    { fact: moved },
    { fact: late },
    { fact: wrong, voided: right },
  ])
})

test('where nothing was moved, the place is that of the opening', () => {
  expect(card([{ ...opened(1), place: 'rack' }])?.place).toBe('rack')
})

test('a reel whose opening does not hold has no card', () => {
  const start = opened(1)
  expect(reelCards(rows, [start, putRight(2, start.id)])).toEqual([])
})

test('a weighing when new is the last one until there is another', () => {
  const whenNew = { scale: kitchen.id, reading_g: 1204 }
  const start = { ...opened(1, grey), gross_when_new: whenNew }
  expect(card([start])?.lastWeighing).toEqual({ at: start.at, weighing: whenNew })
  expect(card([start, weighed(2, 900)])?.lastWeighing).toMatchObject({ at: noon(2) })
})
