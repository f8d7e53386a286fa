import { expect, test } from 'vitest'
import { supposedIn } from '../../src/app/check/supposed-part.ts'
import {
  asAnswered,
  chanceOfPrint,
  chanceOfTool,
  chanceRanked,
} from '../../src/app/check/told-chance.ts'
import { checkWords } from '../../src/app/strings/check-words.ts'
import { showMass } from '../../src/app/strings/show-figure.ts'
import type { RankedReelJson, ToolCheckJson } from '../../src/contract/index.ts'
import { netOf, reckonReel } from '../../src/estimate/index.ts'
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
  expect(chanceOfPrint(check, false)).toBe(null)
  expect(chanceOfTool(check.tools[0]!)).toBe(null)
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
  expect(chanceOfPrint(check, true)).toBe(null)
  expect(chanceOfPrint(check, false)).toBe(check.chance)
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

test('what is too close to call, or short, says the margin, without what can not be printed', () => {
  const belief = valueOf(reckonReel({ grossNow: { reading: grams(500) }, material: 'pla' }))
  const net = netOf(belief).value
  const checkOf = (peak_mm: number) => {
    const draw = [{ weight: 1, peak_mm }]
    const whole = judgePrint([{ tool: 0, belief, draw }])
    const [verdict] = whole.tools
    const tool = { tool: 0, verdict: verdict!, belief, next: [], assumed: [] }
    return checkToJson(whole, [tool], { print: null, findings: [], printer: {} })
  }
  const words = { spiral: false, inDoubt: undefined }
  const said = (check: ReturnType<typeof checkOf>): string =>
    checkWords.sentence(check, 'reel QX5BN', 'g', words)
  const close = checkOf((1000 * net) / 2.98)
  expect(close.verdict).toBe('close')
  expect(close.margin_g.value).toBeLessThan(close.left_over_g.value - 1)
  expect(said(close)).toContain(
    `too close to call: the margin is ${showMass(close.margin_g, 'g')}.`,
  )
  const short = checkOf((2000 * net) / 2.98)
  expect(short.verdict).toBe('short')
  const missing = { value: -short.margin_g.value, u: short.margin_g.u }
  expect(said(short)).toContain(`Reel QX5BN is ${showMass(missing, 'g')} short.`)
})

const mass = { value: 146, u: 5 }
const ranked = {
  reel: {} as RankedReelJson['reel'],
  verdict: 'close',
  chance: 0.47,
  net_g: mass,
  left_over_g: mass,
  margin_g: mass,
  contradicting: [],
  feeds_prints_on: [],
  next: null,
} as const satisfies RankedReelJson

test('a reel of the ranking stands there as the answer has it, once something is supposed of it', () => {
  expect(asAnswered(ranked, undefined)).toBe(ranked)
  expect(chanceRanked(ranked)).toBe(0.47)
  const net_g = { value: 471, u: 4 }
  const used = [{ id: 'a', what: 'a weighing', weight_on_net: 1, off: 9, surprising: true }]
  const tool = { ...ranked, net_g, chance: 0.999, used } as unknown as ToolCheckJson
  const shown = asAnswered(ranked, tool)
  expect(shown).toMatchObject({ net_g, verdict: 'close', contradicting: ['a weighing'] })
  expect(chanceRanked(shown)).toBe(null)
})

test('only the reel of which something is supposed is answered otherwise than it is ranked', () => {
  const check = { tools: [0, 1].map((tool) => ({ tool }) as ToolCheckJson) }
  const reels = [
    { tool: 0, reel: 'K7RMY' },
    { tool: 1, reel: 'REYRT', weighing: { reading_g: 550 } },
  ]
  expect([...supposedIn({ check, reels })]).toEqual([['REYRT', check.tools[1]]])
})
