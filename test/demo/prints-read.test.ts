import { describe, expect, test } from 'vitest'
import { bigPrint } from '../../demo/big-print.ts'
import { demoPrints } from '../../demo/prints/index.ts'
import { type PrintReading, readPrint } from '../../src/print/index.ts'

const read = (slices: Iterable<Uint8Array>): PrintReading => {
  const outcome = readPrint(slices)
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  return outcome.value
}

/** Slices of uneven length, so that lines are cut in most places. */
function* cut(bytes: Uint8Array): Generator<Uint8Array> {
  let size = 1
  for (let at = 0; at < bytes.length; at += size) {
    size = ((size * 7 + 3) % 4093) + 1
    yield bytes.subarray(at, at + size)
  }
}

describe.each(demoPrints)('$name', ({ name, truth, draw }) => {
  const code = draw()
  const bytes = new TextEncoder().encode(code.text())
  const reading = read([bytes])
  const [family, ...others] = reading.families
  const rounding_mm = code.eWords * 0.5 * 10 ** -code.dialect.eDecimals

  test('every firmware family draws the same, and no person is asked', () => {
    expect(others).toEqual([])
    expect(family?.families).toHaveLength(5)
    expect(reading.findings.filter(({ severity }) => severity !== 'note')).toEqual([])
  })

  test('peak, net and start macro of every tool', () => {
    expect(family?.tools.map(({ tool }) => tool)).toEqual(truth.tools.map(({ tool }) => tool))
    for (const [index, wanted] of truth.tools.entries()) {
      const got = family?.tools[index]
      const written = code.written(wanted.tool)
      // Against the numbers in the file: exact but for the order of summing.
      expect(got?.peak_mm).toBeCloseTo(written.peak, 6)
      expect(got?.net_mm).toBeCloseTo(written.net, 6)
      // Against the closed form: what rounding to the last decimal leaves.
      const off = Math.abs((got?.peak_mm ?? Number.NaN) - wanted.peak_mm)
      expect(off).toBeLessThanOrEqual(rounding_mm)
      expect(got?.startMacro_mm).toBeCloseTo(wanted.startMacro_mm, 3)
      expect(got?.layerEnd_mm.at(-1)).toBeCloseTo(written.peak, 6)
    }
  })

  test('layers, passes and height', () => {
    expect(reading.layers.count).toBe(truth.layers)
    expect(reading.layers.passes).toBe(truth.passes)
    expect(reading.layers.height_mm.at(-1)).toBeCloseTo(truth.height_mm, 6)
  })

  test('only the vase is a spiral', () => {
    // The floor comes first, in many short moves, yet is a seventh of the path: a sample of moves
    // that is not weighted by what it left out takes the floor for most of the print.
    expect(reading.layers.spiral).toBe(name === 'vase')
  })

  test('bytes and lines', () => {
    expect(reading.bytes).toBe(bytes.length)
    expect(reading.lines).toBe(code.text().split('\n').length - 1)
  })

  test('reads the same however the bytes are cut', () => {
    expect(read(cut(bytes))).toEqual(reading)
  })
})

test.each(['relative', 'absolute'] as const)('a big print, %s E', (eMode) => {
  const chunks = bigPrint(3_000_000, { eMode })
  const parts: Uint8Array[] = []
  let next = chunks.next()
  while (next.done !== true) {
    parts.push(next.value)
    next = chunks.next()
  }
  const truth = next.value
  const reading = read(parts)
  expect(reading.families).toHaveLength(1)
  const [tool] = reading.families[0]?.tools ?? []
  expect(tool?.peak_mm).toBeCloseTo(truth.peak_mm, 5)
  expect(tool?.net_mm).toBeCloseTo(truth.net_mm, 5)
  expect(tool?.startMacro_mm).toBeCloseTo(truth.startMacro_mm, 6)
  expect(reading.layers.count).toBe(truth.layers)
  expect(reading.bytes).toBe(truth.bytes)
})
