import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { layBars } from '../../src/app/drawing/lay-bars.ts'
import {
  asItIs,
  requestOfAsked,
  withBar,
  withLock,
  withoutPrint,
} from '../../src/app/slate/asked-match.ts'
import { copyLetters, marksOf, troughsOf, turnsOf } from '../../src/app/slate/plan-picture.ts'
import { planWords } from '../../src/app/strings/plan-words.ts'
import { type MatchCopyJson, type MatchJson, matchRequest } from '../../src/contract/index.ts'

test('bars lie end to end, none on another', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1e4, noNaN: true })), (masses) => {
      const laid = layBars(
        masses.map((value, k) => ({ key: `${k}`, mark: `${k}`, needed_g: { value } })),
      )
      laid.forEach(({ from_g, to_g }, k) => {
        expect(from_g).toBe(laid[k - 1]?.to_g ?? 0)
        expect(to_g - from_g).toBeCloseTo(masses[k]!, 6)
      })
    }),
  )
})

test.each([
  [0, 'a'],
  [25, 'z'],
  [26, 'aa'],
  [51, 'az'],
  [52, 'ba'],
])('copy %d has the letter %s', (place, letter) => {
  expect(copyLetters(place)).toBe(letter)
})

const copy = (
  waiting: string,
  number: number,
  more: Partial<MatchCopyJson> = {},
): MatchCopyJson => ({
  waiting,
  copy: number,
  name: waiting,
  due: null,
  printer: 'P',
  printer_name: 'the Gull',
  chance: 0.99,
  begins_h: null,
  ends_h: null,
  late: false,
  waits_for: null,
  waits_at: null,
  puts_on: [],
  differs: false,
  duties: [],
  changes: [],
  note: null,
  missing: [],
  remedies: [],
  ...more,
})
const duty = (tool: number, reel: string): MatchCopyJson['duties'][number] => ({
  tool,
  reel,
  reel_name: reel,
  after_layer: 0,
  until_layer: null,
  needed_g: { value: 10 + tool, u: 1 },
  others: [],
  why: [],
})
const reel = (
  id: string,
  holds: number,
  of: readonly MatchCopyJson[],
): MatchJson['reels'][number] => ({
  reel: id,
  name: id,
  colour_srgb: null,
  holds_g: { value: holds, u: 2 },
  left_g: { value: holds, u: 2 },
  tail_g: { value: 1.5, u: 0.5 },
  chance: 0.99,
  stub: false,
  opened: false,
  imagined: false,
  running: [],
  duties: of.flatMap(({ waiting, copy: number, name, duties }) =>
    duties
      .filter((one) => one.reel === id)
      .map(({ tool, needed_g }) => ({ waiting, copy: number, tool, name, needed_g })),
  ),
})

test('marks are the numbers of the list, with a letter where several copies wait', () => {
  // One copy of B is done already.
  const copies = [copy('B', 2), copy('A', 1), copy('B', 3)]
  const markOf = marksOf(['A', 'B'], copies)
  expect(copies.map(markOf)).toEqual(['2a', '1', '2b'])
})

test('a print that was taken off the list has a number of its own, after the others', () => {
  const copies = [copy('A', 1), copy('X', 1), copy('B', 1), copy('Y', 1), copy('Y', 2)]
  expect(copies.map(marksOf(['A', 'B'], copies))).toEqual(['1', '3', '2', '4a', '4b'])
})

test('troughs hold what their reel is asked for, the fullest first; idle reels have none', () => {
  const copies = [
    copy('A', 1, { duties: [duty(0, 'X'), duty(1, 'Y')], late: true }),
    copy('B', 1, { duties: [duty(0, 'Y')] }),
    copy('C', 1, { printer: null }),
  ]
  const reels = [reel('X', 50, copies), reel('Y', 200, copies), reel('Z', 900, copies)]
  const troughs = troughsOf({ copies, reels }, marksOf(['A', 'B', 'C'], copies))
  expect(troughs.map(({ reel: id }) => id)).toEqual(['Y', 'X'])
  expect(
    troughs[0]?.duties.map(({ mark, tool, tellsTool, late }) => [mark, tool, tellsTool, late]),
  ).toEqual([
    ['1', 1, true, true],
    ['2', 0, false, false],
  ])
})

test('along a printer copies stand together for which nobody has to come in between', () => {
  const made = ['A', 'A', 'A', 'B'].map((waiting, i) =>
    copy(waiting, i < 3 ? i + 1 : 1, { duties: [duty(0, 'X')] }),
  )
  const put = [{ tool: 0, reel: 'X', off: 'Y', from: null }]
  const order = made.map(({ waiting, copy: number }) => ({ waiting, copy: number }))
  const turns = (copies: readonly MatchCopyJson[]) =>
    turnsOf({ copies }, order).map((turn) => turn.copies.map(({ copy: number }) => number))
  expect(turns(made)).toEqual([[1, 2, 3], [1]])
  const stops = made.with(2, { ...made[2]!, puts_on: put })
  expect(turns(stops)).toEqual([[1, 2], [3], [1]])
  expect(planWords.turn(stops[2]!, 0)).toBe('put on X (Y comes off)')
  expect(planWords.turn({ ...made[0]!, waits_for: 'X', waits_at: 'left', late: true }, 0)).toBe(
    'when X comes off left; X is on; late',
  )
  const clock = { early_s: 3000, likely_s: 3600, late_s: 4000 }
  const change = { tool: 0, after_layer: 7, from: 'X', to: 'Z', clock }
  const grams = { value: 1, u: 0 }
  const changes = [{ ...change, height_mm: 1, drawn_mm: 1, stays_g: grams, cost_g: grams }]
  const noon = new Date(2026, 10, 30, 12).getTime()
  expect(planWords.turn({ ...made[0]!, changes, begins_h: 2 }, noon)).toBe(
    'X is on; after layer 7, about Mon 15:00: Z in place of X',
  )
})

test('what runs from a reel is told with its layers, and where it came off that', () => {
  const runs = {
    printer: 'P',
    printer_name: 'left printer',
    file: 'vase.gcode',
    tool: 0,
    after_layer: 0,
    until_layer: null,
    needed_g: { value: 20, u: 1 },
    chance: 0.98,
  }
  expect(planWords.runs(runs)).toBe('runs on left printer; the reel lasts for it with 98.0\u00a0%')
  expect(planWords.runs({ ...runs, after_layer: 17 })).toBe(
    'runs on left printer, from layer 18 on; the reel lasts for it with 98.0\u00a0%',
  )
  expect(planWords.runs({ ...runs, until_layer: 17 })).toBe(
    'runs on left printer, up to layer 17; the reel has come off',
  )
})

describe('what is wished of a match', () => {
  const task = { waiting: 'A', copy: 1, tool: 0 }
  const lock = { ...task, reel: 'X' }
  test('the slate as it is asks for nothing but to be sure', () => {
    expect(requestOfAsked(asItIs)).toEqual({ confidence: 0.95 })
  })
  test('a wish takes the place of one against it', () => {
    const barred = withBar(withLock(asItIs, task, ['X']), { reel: 'X', waiting: 'A' })
    expect(barred.locks).toEqual([])
    const locked = withLock(barred, task, ['X'])
    expect([locked.locks, locked.forbidden]).toEqual([[lock], []])
    const moved = withLock(locked, task, ['Y'])
    expect(moved.locks).toEqual([{ ...lock, reel: 'Y' }])
    // A chain is kept as a whole.
    const chain = withLock(locked, task, ['X', 'Y'])
    expect(chain.locks).toEqual([lock, { ...lock, reel: 'Y' }])
    // Of another print it stays.
    expect(withBar(locked, { reel: 'X', waiting: 'B' }).locks).toEqual([lock])
    expect(withBar(locked, { reel: 'X' }).locks).toEqual([])
  })
  test('is a request that the server takes', () => {
    const asked = withoutPrint(
      withBar(withLock(asItIs, task, ['X']), { reel: 'Y', waiting: 'A' }),
      'B',
    )
    const request = requestOfAsked({ ...asked, newReels: [{ make: 'M' }] })
    expect(matchRequest.parse(request)).toEqual(request)
  })
})

const level = (name: string, value: number, bound: number) => ({
  level: name,
  importance: name === 'unserved' ? 0 : null,
  value,
  bound,
})
const plan = (more: Partial<MatchJson>): MatchJson => ({
  confidence: 0.95,
  useful_g: 50,
  ended: 'done',
  proven: false,
  kept: false,
  levels: [],
  copies: [copy('A', 1)],
  reels: [],
  orders: [],
  notes: [],
  ...more,
})

test('the gap is told where the search did not prove its plan', () => {
  expect(planWords.gap(plan({ proven: true }), 'g')).toBe('Proven: no plan is better.')
  const levels = [level('unserved', 2, -1e-9), level('stubs', 40, 12.2)]
  expect(planWords.gap(plan({ ended: 'time', levels }), 'g')).toBe(
    'The time limit ended the search: 2 copies not served; the best could have 0.',
  )
  const [, stubs] = levels
  expect(planWords.gap(plan({ levels: [stubs!] }), 'g')).toBe(
    'The search ended early: 40 g left in stubs; the best could have 12 g.',
  )
  expect(planWords.outcome(plan({ levels }), 'g')).toBe('All are served; 40 g left in stubs.')
})
