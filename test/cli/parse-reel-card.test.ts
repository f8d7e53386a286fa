import { describe, expect, test } from 'vitest'
import { bigLetters } from '../../src/cli/big-letters.ts'
import { parsePrice } from '../../src/cli/parse-price.ts'
import { parseSrgb } from '../../src/cli/parse-srgb.ts'
import { parseStop } from '../../src/cli/parse-stop.ts'
import { textTable } from '../../src/cli/text-table.ts'
import { idAlphabet } from '../../src/contract/index.ts'

test.each([
  ['21.90 EUR', '21.90', 'EUR'],
  ['eur 21,90', '21.90', 'EUR'],
  ['18 £', '18', 'GBP'],
  ['€21.9', '21.9', 'EUR'],
])('price %s', (typed, amount, currency) => {
  expect(parsePrice(typed, '--price')).toEqual({ amount, currency })
})

test.each(['21.90', 'EUR', '21.90 EUR GBP', 'EUR 3 GBP', '1.234,50 EUR', '-3 EUR'])(
  'no price: %s',
  (typed) => {
    expect(() => parsePrice(typed, '--price')).toThrow(/no price/)
  },
)

test('a colour is kept in small letters', () => {
  expect(parseSrgb('#20242B', '--srgb')).toBe('#20242b')
  expect(parseSrgb('20242b', '--srgb')).toBe('#20242b')
  expect(() => parseSrgb('#fff', '--srgb')).toThrow(/hexadecimal/)
})

describe('where a print stopped', () => {
  test.each([
    ['layer=120', { stoppedAt: { layer: 120 } }],
    ['height=31mm', { stoppedAt: { height_mm: 31 } }],
    ['height=3.1cm', { stoppedAt: { height_mm: 31 } }],
  ])('%s', (typed, stop) => {
    expect(parseStop(typed, '--stopped-at')).toEqual(stop)
  })

  test('a share is as good as it was typed', () => {
    const { stoppedAt, shareDoubt } = parseStop('share=40%', '--stopped-at')
    expect(stoppedAt.share).toBeCloseTo(0.4, 12)
    expect(shareDoubt).toBeCloseTo(0.01 / Math.sqrt(12), 12)
  })

  test.each(['120', 'layer=0', 'layer=half', 'share=140%', 'layer=3, share=4%', 'depth=3'])(
    'not %s',
    (typed) => {
      expect(() => parseStop(typed, '--stopped-at')).toThrow(/--stopped-at/)
    },
  )
})

test('each symbol of an id has a big letter of its own, five lines high', () => {
  const shapes = Array.from(idAlphabet, (symbol) => bigLetters(symbol))
  expect(new Set(shapes).size).toBe(idAlphabet.length)
  for (const shape of shapes) {
    expect(shape.split('\n')).toHaveLength(5)
    expect(shape).toContain('█')
  }
  for (const line of bigLetters('K7RMY').split('\n')) expect(line.length).toBeLessThanOrEqual(36)
})

test('a table that is too wide loses the end of its widest cells', () => {
  const table = textTable(['id', 'name'], [['K7RMY', 'x'.repeat(100)]], { width: 40 })
  for (const line of table.trimEnd().split('\n')) expect(line.length).toBeLessThanOrEqual(40)
  expect(table).toContain('…')
  expect(table).toContain('K7RMY')
})
