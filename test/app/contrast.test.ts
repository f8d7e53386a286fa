import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

// WCAG 2.2, 1.4.3 (text 4.5 : 1) and 1.4.11 (strokes 3 : 1), for the colours of tokens.css.

const sheet = readFileSync('src/app/look/tokens.css', 'utf8')

const coloursOf = (block: string): Map<string, string> =>
  new Map(
    [...block.matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6});/g)].map(([, name = '', colour = '']) => [
      name,
      colour,
    ]),
  )

const [day = '', night = ''] = sheet.split(':root[data-ground="night"]')
const grounds = { day: coloursOf(day), night: coloursOf(night) }

const luminance = (colour: string): number => {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
const contrast = (a: string, b: string): number => {
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].toSorted((x, y) => x - y)
  return (light + 0.05) / (dark + 0.05)
}

test('the ratio is that of the standard', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10)
  // The lightest grey that text on white may have, by common knowledge of the trade.
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2)
})

describe.each(Object.entries(grounds))('by %s', (_, colours) => {
  const on = (name: string, ground: string): number =>
    contrast(colours.get(name) ?? 'missing', colours.get(ground) ?? 'missing')

  test.each(
    ['ink', 'ink-soft', 'accent', 'enough', 'close', 'short'].flatMap((name) =>
      ['paper', 'margin'].map((ground) => [name, ground] as const),
    ),
  )('%s on %s can be read', (name, ground) => {
    expect(on(name, ground)).toBeGreaterThanOrEqual(4.5)
  })
  test.each(['enough-ring', 'close-ring', 'short-ring'])('%s can be seen', (name) => {
    expect(on(name, 'paper')).toBeGreaterThanOrEqual(3)
  })
})
