import { expect, test } from 'vitest'
import { scaleDrawing } from '../../src/cli/scale-drawing.ts'

const bar = (label: string, value: number, u: number) => ({
  label,
  grams: { value, u },
  figure: '',
})

/** The cells of a row, without its label. */
const cells = (row: string | undefined): string => (row ?? '').slice(12, 62)

test('the ruler goes to the first round figure past everything drawn', () => {
  const [names, ruler] = scaleDrawing([bar('reel', 100, 0), bar('print', 260, 0)], [])
  expect(names?.trim().split(/\s+/)).toEqual(['0', '100', '200', '300', 'g'])
  expect(ruler?.trim()).toMatch(/^├─+┬─+┬─+┤$/)
})

test('an exact quantity ends sharply, in its place', () => {
  const [, , row] = scaleDrawing([bar('reel', 100, 0)], [])
  expect(cells(row)).toBe('█'.repeat(50))
  const [, , half] = scaleDrawing([bar('reel', 50, 0), bar('print', 100, 0)], [])
  expect(cells(half).trimEnd()).toBe('█'.repeat(25))
})

test('an uncertain quantity ends softly, half-way at its value', () => {
  const [, , row] = scaleDrawing([bar('reel', 50, 10), bar('print', 100, 0)], [])
  const drawn = cells(row).trimEnd()
  expect(drawn).toMatch(/^█+▓+▒+░+$/)
  // At 50 g, cell 25 of 50 at 2 g a cell, the chance is one half.
  expect(drawn.indexOf('▒')).toBeLessThanOrEqual(25)
  expect(drawn.lastIndexOf('▒')).toBeGreaterThanOrEqual(24)
  // One standard deviation to either side is past the middle shade.
  expect(drawn[19]).toBe('▓')
  expect(drawn[30]).toBe('░')
})

test('nothing and less than nothing draw nothing', () => {
  const [, , none, less] = scaleDrawing([bar('reel', 0, 0), bar('print', -30, 1)], [])
  expect([cells(none).trim(), cells(less).trim()]).toEqual(['', ''])
})

test('the run-dry interval stands under the bars, open where it goes past the end', () => {
  const bars = [bar('reel', 50, 5), bar('print', 100, 0)]
  const mark = { label: 'dry', early: 40, likely: 50, late: 60, end: 100 }
  expect(cells(scaleDrawing(bars, [mark]).at(-1))).toBe(`${' '.repeat(20)}├────▲────┤`)
  expect(cells(scaleDrawing(bars, [{ ...mark, late: null }]).at(-1))).toMatch(/^ {20}├────▲─+$/)
})

test.each([0.3, 7, 42, 999, 12_345])('%d g fits eighty columns', (value) => {
  for (const row of scaleDrawing(
    [{ ...bar('T12 print', value, value / 9), figure: '1234 ± 567 g' }],
    [],
  )) {
    expect(row.length).toBeLessThanOrEqual(80)
  }
})
