import { expect, test } from 'vitest'
import { checkWords } from '../../src/app/strings/check-words.ts'
import { reckonReel } from '../../src/estimate/index.ts'
import { checkToJson } from '../../src/service/index.ts'
import { grams, measured } from '../../src/units/index.ts'
import { judgePrint } from '../../src/verdict/index.ts'
import { valueOf } from '../shelf-bench.ts'

test('of a reel that contradicts itself no chance is spoken of, but what does not agree', () => {
  // Of 1000 g when new 250 g are carrier: the label promises a quarter more than there was.
  const belief = valueOf(
    reckonReel({
      grossNow: { reading: grams(500) },
      grossWhenNew: { reading: grams(1000) },
      tare: { kind: 'stated', tare: measured(grams(250), 1) },
      labelNet: grams(1000),
    }),
  )
  const names = belief.used.filter(({ surprising }) => surprising).map(({ what }) => what)
  expect(names.length).toBeGreaterThan(0)
  const whole = judgePrint([{ tool: 0, belief, draw: [{ weight: 1, peak_mm: 84_000 }] }])
  const [verdict] = whole.tools
  const check = checkToJson(
    whole,
    [{ tool: 0, verdict: verdict!, belief, next: [], assumed: [] }],
    { print: null, findings: [], printer: {} },
  )
  // Neither far out nor sure: only what is told of the reel shows that it is no usual close call.
  expect(check.chance).toBeGreaterThan(0.05)
  expect(check.chance).toBeLessThan(0.95)
  for (const reel of ['reel QX5BN', null]) {
    expect(checkWords.sentence(check, reel, 'g', { spiral: false, inDoubt: undefined })).toBe(
      `What is told of ${reel ?? 'T0’s reel'} does not agree, so nothing is sure: look at ${names.join(', ')}.`,
    )
  }
})

test('of a file that may be cut short it says why no reel is enough', () => {
  const belief = valueOf(reckonReel({ grossNow: { reading: grams(1100) } }))
  const draw = [{ weight: 1, peak_mm: 84_000 }]
  const whole = judgePrint([{ tool: 0, belief, draw, inDoubt: true }])
  const [verdict] = whole.tools
  const tool = { tool: 0, verdict: verdict!, belief, next: [], assumed: [] }
  const check = checkToJson(whole, [tool], { print: null, findings: [], printer: {} })
  expect([check.verdict, check.tools[0]?.verdict]).toEqual(['close', 'close'])
  const words = { spiral: false, inDoubt: 'maybe_cut_short' } as const
  expect(checkWords.sentence(check, 'reel QX5BN', 'g', words)).toBe(
    'The file may not be the whole print, so no reel is called enough for it.',
  )
})

test('of a reel that may be empty it says so, not how sure it is once something is on it', () => {
  const belief = valueOf(reckonReel({ grossNow: { reading: grams(265) } }))
  const whole = judgePrint([{ tool: 0, belief, draw: [{ weight: 1, peak_mm: 300 }] }])
  const [verdict] = whole.tools
  const tool = { tool: 0, verdict: verdict!, belief, next: [], assumed: [] }
  const check = checkToJson(whole, [tool], { print: null, findings: [], printer: {} })
  const words = { spiral: false, inDoubt: undefined }
  expect(checkWords.sentence(check, 'reel QX5BN', 'g', words)).toMatch(/^Reel QX5BN may be empty:/)
})

test('the chance of a reel for the rest is worded as beside its ring: never as certain', () => {
  const told = checkWords.changeThen(12, 2.4, false, { reel: '7JJAP', chance: 1 })
  expect(told.replaceAll('\u00a0', ' ')).toContain('7JJAP, which has > 99.9 % for the rest.')
})
