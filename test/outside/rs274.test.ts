// The lines of RS-274/NGC, as far as they decide what a print draws.
//
// Source: Kramer, Proctor, Messina, NISTIR 6556 (August 2000), section 3.3 on; its body was not
// opened. Rules, examples and the worked program were read second-hand, in the manuals of LinuxCNC
// (overview, gcode) and in the repository flyingyizi/rs274ngc; arc lengths are recomputed from the
// published geometry. What printer firmware does differently is told apart below, with the reason.
import { describe, expect, it, test } from 'vitest'
import {
  type Arc,
  arcLength,
  type FirmwareFamilyId,
  type PrintReading,
  readPrint,
} from '../../src/print/index.ts'
import type { Outcome } from '../../src/units/index.ts'

const read = (...lines: readonly string[]): Outcome<PrintReading> =>
  readPrint([new TextEncoder().encode(`${lines.join('\n')}\n`)])

const reading = (...lines: readonly string[]): PrintReading => {
  const outcome = read(...lines)
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  return outcome.value
}

/** What each family draws of the lines, E relative. */
const drawOf = (...lines: readonly string[]): Partial<Record<FirmwareFamilyId, number>> =>
  Object.fromEntries(
    reading('M83', ...lines).families.flatMap(({ families, tools }) =>
      families.map((family) => [family, tools[0]?.peak_mm ?? 0]),
    ),
  )
const all = (mm: number): Record<FirmwareFamilyId, number> => ({
  community: mm,
  'community-1': mm,
  meta: mm,
  host: mm,
  textfile: mm,
})

describe('lines read as RS-274/NGC has them', () => {
  it.each([
    ['number with a sign', 'G1 X1 E+1', 1],
    ['number that starts with its point', 'G1 X1 E.5', 0.5],
    ['number that ends with its point', 'G1 X1 E5.', 5],
    ['number with idle zeros', 'G1 X1 E007.50', 7.5],
    ['space between letter and number', 'G1 X 1 E 2', 2],
    ['tabs', 'G1\tX1\tE\t2', 2],
    ['space between G and its number', 'G 1 X1 E2', 2],
    ['no space before a word, where no digit precedes', 'G1E2X1.', 2],
    ['idle zero in a code', 'G01 X1 E2', 2],
    ['lower case', 'g1 x1 e2', 2],
    ['words in any order', 'G1 E2 F600 X1', 2],
    ['line number of five digits', 'N99999 G1 X1 E2', 2],
    ['line number without a space', 'N5G1 X1 E2', 2],
    ['comment behind a semicolon', 'G1 X1 E2 ; (a) E5', 2],
    ['comment on a line of its own', '(a E5 move)\nG1 X1 E2', 2],
    ['blank lines', '\n \t\nG1 X1 E2\n\n', 2],
    ['line with the block-delete mark', '/G1 X1 E9\nG1 X1 E2', 2],
    ['per cent signs around the program', '%\nG1 X1 E2\n%', 2],
  ])('%s', (_, line, mm) => {
    const draws = drawOf(line)
    // One family takes E after a digit for an exponent: said below.
    const { meta: _meta, ...others } = draws
    const { meta: _all, ...expected } = all(mm)
    expect(others).toEqual(expected)
  })
  it('negative without a zero', () => {
    expect(drawOf('G1 X1 E2', 'G1 E-.5', 'G1 X2 E1')).toEqual(all(2.5))
  })
  it('line numbers may repeat and fall', () => {
    expect(drawOf('N7 G1 X1 E2', 'N7 G1 X2 E2', 'N3 G1 X3 E2')).toEqual(all(6))
  })
})

describe('lines read as printer firmware has them, not as RS-274/NGC', () => {
  // What each firmware family does: docs/method/draw.md, "Lines".
  it('a space ends a number: printers stop reading there, the standard reads 12.34', () => {
    expect(drawOf('G1 X1 E12. 34')).toEqual(all(12))
    expect(drawOf('g1x +0. 12 34e 2y 7')).toEqual(all(2))
  })
  it('line numbers may have more than five digits: printers count on through long files', () => {
    expect(drawOf('N1234567 G1 X1 E2')).toEqual(all(2))
  })
  it('an E behind a digit is an exponent to one family: the standard has no exponents', () => {
    expect(drawOf('G1X1E2')).toEqual({ ...all(2), meta: 0 })
    const codes = reading('M83', 'G1X1E2').findings.map(({ code }) => code)
    expect(codes).toContain('dense_e')
  })
  it.each([['.'], ['+'], ['-'], ['[1 + 2]'], ['#3']])(
    'E%s is refused with its line: printers neither agree on a missing number nor compute',
    (number) => {
      expect(read('M83', 'G1 X1 E1', `G1 X2 E${number}`)).toMatchObject({
        ok: false,
        refusal: { code: 'e_without_number', line: 3 },
      })
    },
  )
  it('a second point ends a number, with a finding: the standard makes it an error', () => {
    expect(drawOf('G1 X1 E1.2.3')).toEqual(all(1.2))
    const codes = reading('M83', 'G1 X1 E1.2.3').findings.map(({ code }) => code)
    expect(codes).toContain('doubled_point')
  })
  it('a comment in brackets on a move: most printers read on behind it, one drops the rest', () => {
    expect(drawOf('G1 X1 (a hop) E3')).toEqual({ ...all(3), textfile: 0 })
    const codes = reading('M83', 'G1 X1 (a hop) E3').findings.map(({ code }) => code)
    expect(codes).toContain('bracket_on_move')
  })
  it('letters with a number in such brackets are words to printers, bare letters are not read', () => {
    expect(drawOf('G1 X1 (note) E3')).toEqual({ ...all(3), textfile: 0 })
    expect(drawOf('G1 X1 (note E5)')).toEqual({ ...all(5), textfile: 0 })
  })
  it('a semicolon in brackets begins a comment: printers know no bracket around it', () => {
    expect(drawOf('G1 X1 E3 (a ; b) E4')).toEqual(all(3))
  })
  it('the same letter twice: which counts differs, where the standard makes it an error', () => {
    expect(drawOf('G1 X1 E2 E3')).toEqual({ ...all(3), meta: 2, textfile: 2 })
  })
  it('the first word is the command: x3 g1 is no move, where the standard has any order', () => {
    expect(drawOf('X3 E3 G1', 'G1 X4 E1')).toEqual(all(1))
  })
  it('motion is not modal: a line of axis words alone moves nothing', () => {
    expect(drawOf('G1 X1 E3', 'X3 E3')).toEqual(all(3))
  })
  it('a setting of a parameter is passed over: printers have none', () => {
    expect(drawOf('#3=15', 'G1 X1 E3')).toEqual(all(3))
  })
  it('a line may be longer than 256 characters, with a finding', () => {
    expect(drawOf(`G1 X1${' '.repeat(300)}E3`)).toEqual(all(3))
    const codes = reading('M83', `G1 X1${' '.repeat(300)}E3`).findings.map(({ code }) => code)
    expect(codes).toContain('long_line')
  })
  it('a code close to a whole number is another code: printers have sub-codes', () => {
    expect(drawOf('G1.00001 X1 E3', 'G1 E1')).toEqual(all(1))
  })
})

type Point = readonly [x: number, y: number, z: number]
const point = ([x, y, z]: Point): Arc['from'] => ({ x, y, z })

interface ArcExample {
  readonly line: string
  readonly from: Point
  readonly to: Point
  readonly about: Arc['about']
  readonly length: number
}

// Examples of LinuxCNC's manual, several inherited from NISTIR 6556; lengths recomputed.
const examples: readonly ArcExample[] = [
  {
    line: 'G2 X1 Y1 I1',
    from: [0, 0, 0],
    to: [1, 1, 0],
    about: { i: 1, j: 0 },
    length: 1.5707963268,
  },
  {
    line: 'G2 X0 Y1 I1 J0.5',
    from: [0, 0, 0],
    to: [0, 1, 0],
    about: { i: 1, j: 0.5 },
    length: 1.0367475713,
  },
  {
    line: 'G3 X0 Y0 I1 J-0.5',
    from: [0, 1, 0],
    to: [0, 0, 0],
    about: { i: 1, j: -0.5 },
    length: 1.0367475713,
  },
  {
    line: 'G2 X10 Y16 I3 J4 Z9',
    from: [7, 7, 9],
    to: [10, 16, 9],
    about: { i: 3, j: 4 },
    length: 12.490457724,
  },
  {
    line: 'G2 X10 Y16 I3 J4 Z9',
    from: [7, 7, 0],
    to: [10, 16, 9],
    about: { i: 3, j: 4 },
    length: 15.3951789257,
  },
  {
    line: 'G2 X10 Y15 R20',
    from: [0, 0, 0],
    to: [10, 15, 0],
    about: { radius: 20 },
    length: 18.7017008279,
  },
  {
    line: 'G2 X10 Y15 R20 Z5',
    from: [0, 0, 0],
    to: [10, 15, 5],
    about: { radius: 20 },
    length: 19.3585540228,
  },
]

describe('arcs', () => {
  it.each(examples)('$line from $from is $length long', ({ line, from, to, about, length }) => {
    const arc: Arc = { from: point(from), to: point(to), clockwise: line.startsWith('G2'), about }
    expect(arcLength(arc)).toBeCloseTo(length, 9)
  })
  it.each(examples.slice(1, 3))('$line the wrong way round is the trap', (example) => {
    const { line, from, to, about } = example
    const wrong: Arc = {
      from: point(from),
      to: point(to),
      clockwise: !line.startsWith('G2'),
      about,
    }
    expect(arcLength(wrong)).toBeCloseTo(5.9880671597, 9)
  })
  it.each(examples)('$line draws what its E says, whatever its shape', ({ line }) => {
    const { counts } = reading('M83', `${line} E3`)
    expect(counts).toMatchObject({ arcs: 1, moves: 1 })
    expect(drawOf(`${line} E3`)).toEqual(all(3))
  })
})

// Parts of the Circle Diamond Square Program (T. Kramer, NIST, 26 September 1994), in inches: the
// moves with their line numbers, read second-hand in flyingyizi/rs274ngc, example/cds-sample.ngc.
const circle = `
  n1170 G2 X+0.375 Y+2.0 R+1.625
  n1180 G2 X+2.0 Y+3.625 R+1.625
  n1190 G2 X+3.625 Y+2.0 R+1.625
  n1200 G2 X+2.0 Y+0.375 R+1.625`
const diamond = `
  n2190 G2 X+1.9116 Y+0.4116 R+0.125
  n2200 G1 X+0.4116 Y+1.9116
  n2210 G2 X+0.4116 Y+2.0884 R+0.125
  n2220 G1 X+1.9116 Y+3.5884
  n2230 G2 X+2.0884 Y+3.5884 R+0.125
  n2240 G1 X+3.5884 Y+2.0884
  n2250 G2 X+3.5884 Y+1.9116 R+0.125
  n2260 G1 X+2.0884 Y+0.4116`
const diamondTop = `
  n2310 g1 z+2.0
  n2320 g1 y+3.5
  n2330 g1 x+2.1 y+3.4
  n2340 g1 x+1.9
  n2350 g1 x+1.7 y+3.2
  n2360 g1 x+2.3
  n2370 g1 x+2.5 y+3.0
  n2380 g1 x+1.5
  n2390 g1 x+1.3 y+2.8
  n2400 g1 x+2.7
  n2410 g1 x+2.9 y+2.6
  n2420 g1 x+1.1
  n2430 g1 x+0.9 y+2.4
  n2440 g1 x+3.1
  n2450 g1 x+3.3 y+2.2
  n2460 g1 x+0.7
  n2470 g1 x+0.5 y+2.0
  n2480 g1 x+3.5
  n2490 g1 x+3.3 y+1.8
  n2500 g1 x+0.7
  n2510 g1 x+0.9 y+1.6
  n2520 g1 x+3.1
  n2530 g1 x+2.9 y+1.4
  n2540 g1 x+1.1
  n2550 g1 x+1.3 y+1.2
  n2560 g1 x+2.7
  n2570 g1 x+2.5 y+1.0
  n2580 g1 x+1.5
  n2590 g1 x+1.7 y+0.8
  n2600 g1 x+2.3
  n2610 g1 x+2.1 y+0.6
  n2620 g1 x+1.1`

const inch = 25.4
const word = (line: string, letter: string): number | undefined => {
  const [, number] = new RegExp(`${letter}([+-][\\d.]+)`, 'i').exec(line) ?? []
  return number === undefined ? undefined : Number(number) * inch
}

/** Lengths of the moves of such a part, in inches. */
const pathOf = (part: string, [x, y, z]: Point): number[] => {
  let from = { x: x * inch, y: y * inch, z: z * inch }
  const lines = part.trim().split('\n')
  return lines.map((line) => {
    const to = {
      x: word(line, 'x') ?? from.x,
      y: word(line, 'y') ?? from.y,
      z: word(line, 'z') ?? from.z,
    }
    const radius = word(line, 'r')
    const length =
      radius === undefined
        ? Math.hypot(to.x - from.x, to.y - from.y, to.z - from.z)
        : arcLength({ from, to, clockwise: /g2/i.test(line), about: { radius } })
    from = to
    return (length ?? Number.NaN) / inch
  })
}

const sum = (lengths: readonly number[]): number => lengths.reduce((a, b) => a + b, 0)

// Path lengths recomputed from the program.
describe('the Circle Diamond Square Program', () => {
  test('the circle is 2π × 1.625 in', () => {
    const path = pathOf(circle, [2, 0.375, 0])
    expect(sum(path)).toBeCloseTo(10.2101761242, 9)
    expect(sum(path)).toBeCloseTo(2 * Math.PI * 1.625, 9)
  })
  test('two arcs of its pockets', () => {
    const from: Point = [1.437, 3.535, 0]
    expect(pathOf('n0240 G3 X+1.0704 Y+3.345 R+1.635', from)[0]).toBeCloseTo(0.4140163224, 9)
    expect(pathOf('n0680 G2 X+2.0 Y+3.635 R+1.635', from)[0]).toBeCloseTo(0.5747670349, 9)
  })
  test("the diamond's boundary and its corners", () => {
    const path = pathOf(diamond, [2.0884, 0.4116, 0])
    for (const corner of [0, 2, 4, 6]) expect(path[corner]).toBeCloseTo(0.1963825008, 9)
    expect(sum(path)).toBeCloseTo(9.2708113776, 9)
  })
  test("the diamond's top, and its time at 16 in/min", () => {
    const path = pathOf(diamondTop, [2, 3.8, 2.1])
    expect(path).toHaveLength(32)
    expect(sum(path)).toBeCloseTo(27.9012193309, 9)
    expect(sum(path) / 16).toBeCloseTo(1.7438262082, 9)
  })
  test('the reader sees its moves and arcs, and that they feed nothing', () => {
    const { counts, findings, families } = reading('G20', circle, diamond, diamondTop)
    expect(counts).toMatchObject({ moves: 44, arcs: 8, extrudingMoves: 0 })
    expect(findings.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['inch_mode', 'lower_case', 'nothing_drawn']),
    )
    expect(families.every(({ tools }) => tools.length === 0)).toBe(true)
  })
})
