import { describe, expect, test } from 'vitest'
import { demoPrints } from '../../demo/prints/index.ts'
import { tally } from './tally.ts'

const bead_mm2: Readonly<Record<string, number>> = {
  'hinge-pin': 0.45 * 0.3,
  'battery-door': 0.45 * 0.2,
  'gasket-set': 0.45 * 0.2,
  knob: 0.45 * 0.2,
  'two-tool-part': 0.45 * 0.2,
  vase: 0.7 * 0.3,
  'tackle-box': 0.6 * 0.3,
}

const off = (got: number | undefined, wanted: number): number =>
  Math.abs((got ?? Number.NaN) - wanted)

describe.each(demoPrints)('$name', (print) => {
  const { name, truth } = print
  const code = print.draw()
  const text = code.text()
  const read = tally(text)
  const rounding_mm = code.eWords * 0.5 * 10 ** -code.dialect.eDecimals

  test.each(truth.tools)('tool $tool: E words add up to the closed form', (tool) => {
    expect(off(read.net.get(tool.tool), tool.net_mm)).toBeLessThanOrEqual(rounding_mm)
    expect(off(read.peak.get(tool.tool), tool.peak_mm)).toBeLessThanOrEqual(rounding_mm)
    // A bound of n half-units is loose for long files; in fact errors stay within 1 in 20 000.
    expect(off(read.peak.get(tool.tool), tool.peak_mm)).toBeLessThan(tool.peak_mm / 20_000)
  })

  test.each(truth.tools)('tool $tool: the writer keeps the same accounts', (tool) => {
    const ideal = code.ideal(tool.tool)
    const written = code.written(tool.tool)
    expect(ideal.peak).toBeCloseTo(tool.peak_mm, 6)
    expect(ideal.net).toBeCloseTo(tool.net_mm, 6)
    expect(written.peak).toBeCloseTo(read.peak.get(tool.tool) ?? Number.NaN, 7)
    expect(written.net).toBeCloseTo(read.net.get(tool.tool) ?? Number.NaN, 7)
  })

  test('only the tools of the truth feed', () => {
    expect([...read.net.keys()].toSorted((a, b) => a - b)).toEqual(
      truth.tools.map(({ tool }) => tool),
    )
    expect(code.tools).toEqual(truth.tools.map(({ tool }) => tool))
    expect(read.eWords).toBe(code.eWords)
  })

  test('peak, net and the sum of positive feeds can be told apart', () => {
    for (const { tool, peak_mm, net_mm } of truth.tools) {
      expect(net_mm).toBeLessThan(peak_mm - 1)
      // Firmware retraction has no E words, so nothing is fed twice there.
      if (code.dialect.retraction_mm === 'firmware') continue
      expect(code.ideal(tool).positive).toBeGreaterThan(peak_mm + 1)
    }
  })

  test('the paths in the file carry the bead of the print', () => {
    const drawn = truth.tools.reduce((sum, tool) => sum + tool.peak_mm - tool.startMacro_mm, 0)
    const filament_mm2 = (Math.PI / 4) * 1.75 ** 2
    const bead = bead_mm2[name] ?? Number.NaN
    expect(Math.abs((read.path_mm * bead) / filament_mm2 / drawn - 1)).toBeLessThan(2e-5)
  })

  test('height and layers', () => {
    expect(read.top_mm).toBeCloseTo(truth.height_mm, 9)
    // Every chord of the spiral has a height of its own, and a turn is a layer.
    const spiral = name === 'vase'
    expect(spiral ? (read.layers - 2) / 60 + 2 : read.layers).toBe(truth.layers)
  })

  test('the start macro ends with the priming lines', () => {
    const primed = tally(text.slice(0, text.search(/G0 X[2-9][0-9]|G0 X1[0-9][0-9]/)))
    for (const { tool, startMacro_mm } of truth.tools) {
      expect(primed.peak.get(tool)).toBeCloseTo(startMacro_mm, 3)
    }
    const all = truth.tools.reduce((sum, tool) => sum + tool.startMacro_mm, 0)
    expect(truth.startMacro_mm).toBe(all)
  })

  test('draws between 1 m and 60 m', () => {
    for (const { peak_mm } of truth.tools) {
      expect(peak_mm).toBeGreaterThan(1000)
      expect(peak_mm).toBeLessThan(60_000)
    }
  })

  test('is the same at every call', () => {
    expect(print.write()).toBe(text)
  })

  test('is plain ASCII with one kind of line end and a last one', () => {
    const { lineEnd } = code.dialect
    expect(text.endsWith(lineEnd)).toBe(true)
    expect(text.split(lineEnd).join('')).toMatch(/^[ -~]*$/)
  })
})

test('names and file names are all different', () => {
  expect(new Set(demoPrints.map(({ name }) => name)).size).toBe(demoPrints.length)
  expect(new Set(demoPrints.map(({ fileName }) => fileName)).size).toBe(demoPrints.length)
})
