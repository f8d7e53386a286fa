import { describe, expect, test } from 'vitest'
import type { FactJson } from '../../src/contract/index.ts'
import { checkNewFact } from '../../src/ledger/index.ts'
import {
  drew,
  fact,
  grey,
  kitchen,
  nobody,
  noon,
  opened,
  putRight,
  rows,
  weighed,
  white,
} from './bench-records.ts'

const start = opened(1)
const fed = drew(3, 5000)
const facts: readonly FactJson[] = [start, weighed(2, 1200), fed]
const code = (one: FactJson, ledger = facts, together: readonly FactJson[] = []): string => {
  const checked = checkNewFact(one, rows, ledger, together)
  if (!checked.ok) expect(checked.refusal.message).toMatch(/^[A-Z].*[.?]$/)
  return checked.ok ? 'taken' : checked.refusal.code
}
const weighing = { scale: kitchen.id, reading_g: 700 }
const size = (value: number) => ({ value, u: 1 })
const emptied = fact(5, { kind: 'emptied', reel: grey } as const)
const ranDry = fact(5, { kind: 'ran-dry', reel: grey } as const)
const retired = fact(5, { kind: 'retired', reel: grey } as const)
const measured = (rest: object) =>
  fact(4, { kind: 'measured', reel: grey, ...rest } as never) as FactJson

test.each<readonly [string, FactJson]>([
  ['taken', weighed(4, 900)],
  ['taken', opened(4, white)],
  ['before_opened', { ...weighed(4, 900), at: '2020-01-01T00:00:00.000Z' }],
  // Times are rough: some hours before are taken at the opening.
  ['taken', { ...weighed(4, 900), at: new Date(Date.parse(start.at) - 80_000_000).toISOString() }],
  ['taken', fact(5, { kind: 'weighed', reel: grey, weighing }, 4)],
  ['in_the_future', fact(6, { kind: 'weighed', reel: grey, weighing }, 4)],
  ['person_unknown', { ...weighed(4, 900), by: nobody }],
  ['reel_not_opened', weighed(4, 900, white)],
  ['reel_opened_already', opened(4)],
  ['make_unknown', { ...opened(4, white), make: nobody }],
  ['printer_unknown', { ...drew(4, 10), printer: nobody }],
  ['scale_unknown', { ...weighed(4, 900), weighing: { ...weighing, scale: nobody } }],
  ['scale_unknown', { ...opened(4, white), gross_when_new: { ...weighing, scale: nobody } }],
  ['weighing_below_extra', { ...weighed(4, 900), weighing: { ...weighing, extra_g: size(700) } }],
  ['weighing_below_extra', weighed(4, 0)],
  ['impossible_fact', { ...weighed(4, 900), weighing: { ...weighing, extra_g: size(-38) } }],
  ['impossible_fact', weighed(4, 200_000)],
  ['gross_below_label', { ...opened(4, white), gross_when_new: weighing }],
  ['impossible_fact', { ...opened(4, white), label_net_g: 1 }],
  ['impossible_fact', drew(4, 1e9)],
  ['impossible_fact', fact(4, { kind: 'ran-dry', reel: grey, tail_mm: size(400_000) })],
  ['share_above_one', { ...drew(4, 10), share: { value: 1.1, u: 0 } }],
  ['share_above_one', { ...drew(4, 10), stopped_at: { share: 1.1 } }],
  ['impossible_fact', measured({ calipers: { places_mm: [[1.75, 17.5]] } })],
  ['impossible_fact', measured({ density_g_per_cm3: size(1240) })],
  ['impossible_fact', measured({ linear_density_g_per_m: size(0.003) })],
  [
    'not_lighter_in_water',
    measured({ immersion: { in_air_g: size(1), in_water_g: size(2), water_c: 20 } }),
  ],
  [
    'winding_below_hub',
    measured({ winding: { hub_mm: size(90), outer_mm: size(80), width_mm: size(50) } }),
  ],
  ['impossible_fact', fact(4, { kind: 'dried', reel: grey, remaining_share: size(2) })],
  ['fed_after', fact(2, { kind: 'ran-dry', reel: grey })],
  ['fed_after', fact(2, { kind: 'emptied', reel: grey })],
])('%s: %j', (expected, one) => {
  expect(code(one)).toBe(expected)
})

describe('a reel that has ended', () => {
  test.each<readonly [string, FactJson, FactJson]>([
    ['reel_empty', emptied, drew(6, 100)],
    ['reel_empty', emptied, fact(6, { kind: 'emptied', reel: grey })],
    ['reel_empty', emptied, fact(6, { kind: 'ran-dry', reel: grey })],
    ['reel_empty', ranDry, drew(6, 100)],
    ['taken', ranDry, fact(6, { kind: 'emptied', reel: grey })],
    ['taken', ranDry, drew(4, 100)],
    ['taken', emptied, weighed(6, 200)],
    ['taken', emptied, fact(6, { kind: 'retired', reel: grey })],
    ['reel_retired', retired, weighed(6, 200)],
    ['reel_retired', retired, fact(6, { kind: 'moved', reel: grey, place: 'box' })],
    ['taken', retired, weighed(4, 900)],
  ])('%s', (expected, end, one) => {
    expect(code(one, [...facts, end])).toBe(expected)
  })
  test('but that was put right goes on', () => {
    expect(code(drew(6, 100), [...facts, emptied, putRight(6, emptied.id)])).toBe('taken')
  })
})

describe('a put-right', () => {
  test('of a fact that stands', () => {
    expect(code(putRight(6, fed.id))).toBe('taken')
  })
  test('of nothing, or of itself', () => {
    expect(code(putRight(6, emptied.id))).toBe('fact_unknown')
    const self = putRight(6, fed.id)
    expect(code({ ...self, voids: self.id })).toBe('fact_unknown')
  })
  test('of a fact that is void already', () => {
    expect(code(putRight(7, fed.id), [...facts, putRight(6, fed.id)])).toBe('fact_void')
  })
  test('with something instead that is not there', () => {
    expect(code(putRight(6, fed.id, emptied.id))).toBe('fact_unknown')
  })
  test('with something instead that is written down with it', () => {
    const again = drew(3, 4000)
    const right = putRight(6, fed.id, again.id)
    expect(code(right, facts, [again, right])).toBe('taken')
    expect(code(again, facts, [again, right])).toBe('taken')
  })
  test('with itself instead', () => {
    const self = putRight(6, fed.id)
    expect(code({ ...self, instead: self.voids })).toBe('instead_differs')
  })

  describe('of an opening', () => {
    test('on which other facts hang', () => {
      expect(code(putRight(6, start.id))).toBe('opened_needed')
    })
    test('on which none hang', () => {
      expect(code(putRight(6, start.id), [start])).toBe('taken')
      expect(code(putRight(6, start.id), [start, fed, putRight(4, fed.id)])).toBe('taken')
    })
    test('with another instead, each checked with the other', () => {
      const again = { ...opened(2), recorded_at: noon(6) }
      const right = putRight(6, start.id, again.id)
      expect(code(again, facts)).toBe('reel_opened_already')
      expect(code(again, facts, [again, right])).toBe('taken')
      expect(code(right, facts, [again, right])).toBe('taken')
    })
    test('with that of another reel, or a weighing, instead', () => {
      const other = opened(2, white)
      expect(code(putRight(6, start.id, other.id), [...facts, other])).toBe('instead_differs')
      expect(code(putRight(6, start.id, fed.id))).toBe('instead_differs')
    })
  })
})

test('the fact comes back as it came', () => {
  const one = weighed(4, 900)
  expect(checkNewFact(one, rows, facts)).toEqual({ ok: true, value: one })
})
