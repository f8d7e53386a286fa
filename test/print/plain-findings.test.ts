import { describe, expect, test } from 'vitest'
import {
  firmwareFamilies,
  type PrintReading,
  readPrint,
  type ToolReading,
} from '../../src/print/index.ts'

const read = (...lines: string[]): PrintReading => readAll(lines)

const readAll = (lines: readonly string[]): PrintReading => {
  const outcome = readPrint([new TextEncoder().encode(`${lines.join('\n')}\n`)])
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  return outcome.value
}

const codes = (...lines: string[]): string[] => read(...lines).findings.map(({ code }) => code)

/** Of a file whose last line has no end. */
const codesOfLast = (line: string): string[] => {
  const outcome = readPrint([new TextEncoder().encode(`M83\nG1 X1 E1\n${line}`)])
  return outcome.ok ? outcome.value.findings.map(({ code }) => code) : []
}

/** The same line as the kernel takes it and, with a tab, as the line reader does. */
const bothWays = (line: string): [string, string] => [line, `${line}\t`]

describe('what plain lines are noted for does not depend on who reads them', () => {
  const blanks = ' '.repeat(100)
  test.each(bothWays(`G1${blanks}X1 Y1 E1`))('long before its words: %s', (line) => {
    expect(codes('M83', line)).toContain('long_line')
  })
  test.each(bothWays(`G1 X1 Y1 E1${blanks}`))('long behind its words: %s', (line) => {
    expect(codes('M83', line)).toContain('long_line')
  })
  test.each(bothWays(`${blanks}G1 X1 Y1 E1`))('indentation does not count: %s', (line) => {
    expect(codes('M83', line)).not.toContain('long_line')
  })
  test.each(bothWays(`N${'7'.repeat(100)} G1 X1 Y1 E1`))('nor does a line number: %s', (line) => {
    expect(codes('M83', line)).not.toContain('long_line')
  })
  test.each(bothWays('G1 X2 Y2 E250'))('a long feed: %s', (line) => {
    expect(codes('M83', line)).toContain('long_feed')
  })
  test('a long feed below the peak', () => {
    expect(codes('M82', 'G1 X10 E50', 'G1 E-300', 'G1 E50')).toContain('long_feed')
  })
  test.each(['G28 X', 'M84', 'G4 P100', 'G1 E-2\nG1 X0 Y200', '; the end'])(
    'a print may end without a line end: %j',
    (line) => {
      expect(codesOfLast(line)).not.toContain('maybe_cut_short')
    },
  )
  test.each(['G', 'G1', 'G1 X', 'G1 X1.', 'G1 X1', 'g01 X1 Y2', 'N12 G1 X1', 'G1 X1 E1'])(
    'and not in a move while it feeds: %j',
    (line) => {
      expect(codesOfLast(line)).toContain('maybe_cut_short')
    },
  )
})

describe('families that were apart are together again', () => {
  const move = 'G1 X1 E1'
  test('after the G92 E that makes them equal', () => {
    // A bare G92 zeroes E under two families; nothing was fed apart.
    const { families } = read('G1 E0', 'G92 E7', 'G92', 'G92 E0', move)
    expect(families).toHaveLength(1)
    expect(families[0]?.families).toHaveLength(firmwareFamilies.length)
  })
  test('after tools whose E is set anew at each change', () => {
    const { families } = read('T0', 'G92 E0', move, 'T1', 'G92 E0', move, 'T0', 'G92 E0', move)
    expect(families).toHaveLength(1)
  })
})

test('lines that end in CR alone are read in time that grows with their number', () => {
  // Once every line looked back over a whole window for an LF.
  const lines = Array.from({ length: 200_000 }, (_, i) => `G1 X${i % 100} E0.01`)
  const outcome = readPrint([new TextEncoder().encode(`M83\r${lines.join('\r')}\r`)])
  expect(outcome.ok && outcome.value.lines).toBe(200_001)
}, 20_000)

/** The tools of a print, each with the widest gap between rows of its curve, as a share of its total. */
const widestGaps = (lines: readonly string[]): number[] =>
  readAll(lines).families[0]!.tools.map(({ peak_mm, curve }: ToolReading) => {
    const gaps = curve.draw_mm.map((draw, row) => draw - (curve.draw_mm[row - 1] ?? 0))
    return Math.max(...gaps) / peak_mm
  })

describe('the draw curve has a row at least every thousandth of the total', () => {
  test('whatever of the rows is just thinned out when the print ends', () => {
    for (const moves of [8000, 11_000, 14_500, 20_000, 27_000]) {
      for (const total of [4, 40, 55, 4000]) {
        const feed = (total / moves).toFixed(6)
        const lines = Array.from({ length: moves }, (_, i) => `G1 X${i % 100} E${feed}`)
        const [widest] = widestGaps(['M83', ...lines])
        expect(widest, `${moves} moves, ${total} mm`).toBeLessThanOrEqual(0.001)
      }
    }
  })

  test.each(['first', 'last'])('where the %s hundredth of the file draws nearly all', (where) => {
    const thick = Array.from({ length: 4000 }, (_, i) => `G1 X${i % 100} Y5 E0.05`)
    const thin = Array.from({ length: 400_000 }, (_, i) => `G1 X${i % 100} Y5 E0.00001`)
    const lines = where === 'first' ? thick.concat(thin) : thin.concat(thick)
    const [widest] = widestGaps(['M83', ...lines])
    expect(widest).toBeLessThanOrEqual(0.001)
  })

  test('where the feeder moves alone, and tools take turns', () => {
    const lines = Array.from({ length: 30_000 }, (_, i) => {
      const move = i % 3 === 0 ? 'G1 E0.02 F300' : `G1 X${i % 100} Y5 E0.02`
      return i % 1000 === 0 ? `T${(i / 1000) % 2}\n${move}` : move
    })
    const widest = widestGaps(['M83', ...lines])
    expect(widest.length).toBe(2)
    expect(Math.max(...widest)).toBeLessThanOrEqual(0.001)
  })
})
