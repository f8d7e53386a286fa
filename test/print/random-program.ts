/**
 * Random programs for the agreement of the two readers: canonical lines, odd ones, and a mutator
 * that writes a line in a way some file somewhere does. Heights lie on a grid of 0.05 mm so that no
 * difference falls on the 0.02 mm that separates layers.
 */
import * as fc from 'fast-check'
import type { ReadOptions } from '../../src/print/index.ts'

const decimals = (low: number, high: number, places: number): fc.Arbitrary<string> =>
  fc
    .integer({ min: Math.round(low * 10 ** places), max: Math.round(high * 10 ** places) })
    .map((value) => (value / 10 ** places).toFixed(places))

const height = fc.integer({ min: 1, max: 30 }).map((steps) => (steps * 0.05).toFixed(2))
const place = decimals(0, 200, 1)
const feedLength = decimals(0, 12, 4)
const shortPull = decimals(0.1, 5, 2)
const tool = fc.integer({ min: 0, max: 3 })

const line = (...parts: readonly (string | fc.Arbitrary<unknown>)[]): fc.Arbitrary<string> =>
  fc
    .tuple(...parts.map((part) => (typeof part === 'string' ? fc.constant(part) : part)))
    .map((written) => written.join(''))
const oneOf = (...texts: readonly string[]): fc.Arbitrary<string> => fc.constantFrom(...texts)

const draw = line('G1 X', place, ' Y', place, ' E', feedLength)
const moves: fc.Arbitrary<string> = fc.oneof(
  { weight: 12, arbitrary: draw },
  { weight: 3, arbitrary: line('G0 X', place, ' Y', place, ' F6000') },
  { weight: 4, arbitrary: line('G1 Z', height, ' F600') },
  { weight: 3, arbitrary: line('G1 X', place, ' Y', place, ' Z', height, ' E', feedLength) },
  { weight: 3, arbitrary: line('G1 E-', shortPull) },
  { weight: 3, arbitrary: line('G1 E', shortPull) },
  {
    weight: 2,
    arbitrary: line(oneOf('G2', 'G3'), ' X', place, ' Y', place, ' I2 J1 E', feedLength),
  },
  { weight: 1, arbitrary: line('G5 X', place, ' Y', place, ' I1 J1 P1 Q1 E', feedLength) },
)

const modes: fc.Arbitrary<string> = fc.oneof(
  oneOf('M82', 'M83', 'G90', 'G91', 'M82', 'M83', 'G92 E0', 'G92 E0', 'G20', 'G21', 'G21'),
  line('G92 E', feedLength),
  oneOf('G92', 'G92 E', 'G92 X0', 'G92.1', 'G92 Z0.2', 'G92 X0 Y0 E1.5'),
)

const settings: fc.Arbitrary<string> = fc.oneof(
  line('T', tool),
  line('T', tool),
  oneOf('T-1', 'T?', 'T100', 'T1000', 'T 1', 'T'),
  line('M221 S', fc.integer({ min: -20, max: 260 })),
  line('M221 S', decimals(0, 120, 2)),
  line('M221 T', tool, ' S', fc.integer({ min: 50, max: 150 })),
  line('M221 D', tool, ' S', fc.integer({ min: 50, max: 150 })),
  oneOf('M221', 'M221 S', 'M221 X Y', 'M221 T'),
  oneOf('M200 D1.75', 'M200 D0', 'M200 S1', 'M200 S0', 'M200 D2.85 S0', 'M200 D1.75 S1'),
  oneOf('M200 D1.75:2.85', 'M200 T1 D2.85', 'M200 P1 D2.85', 'M200 D-1', 'M200', 'M200 D'),
  line('M207 S', shortPull),
  line('M207 S', shortPull, ' R0.25'),
  oneOf('M208 S0.5', 'M208 S-0.1', 'M209 S1'),
  oneOf('G10', 'G10', 'G11', 'G11', 'G10 S1', 'G10 P1 S200', 'G10 L2 X1', 'G10 R180'),
)

const course: fc.Arbitrary<string> = fc.oneof(
  oneOf('G28', 'G29', 'G29.1', 'M109 S210', 'M190 S60', 'M116', 'M191 S40', 'M104 S200'),
  oneOf('M600', 'M0', 'M1', 'M25', 'M226', 'M601', 'PAUSE', 'M2', 'M30', 'CANCEL_PRINT'),
  oneOf('M808', 'SDCARD_LOOP_END', 'M808 L1', 'SDCARD_LOOP_BEGIN COUNT=1'),
  line('ACTIVATE_EXTRUDER EXTRUDER=extruder', oneOf('', '1', '2')),
  oneOf('SAVE_GCODE_STATE NAME=a', 'RESTORE_GCODE_STATE NAME=a', 'SAVE_GCODE_STATE NAME=b'),
  oneOf('RESTORE_GCODE_STATE NAME=b', 'SAVE_GCODE_STATE', 'RESTORE_GCODE_STATE'),
  oneOf('SET_RETRACTION RETRACT_LENGTH=0.8', 'SET_RETRACTION UNRETRACT_EXTRA_LENGTH=0.1'),
)

const texts: fc.Arbitrary<string> = oneOf(
  '',
  ';',
  '; a comment E5',
  'M117 E500 G1 E5',
  'M1006 A0 B0 E37',
  'Moving E5 now',
  '(E5)',
  '%',
  '/G1 E5',
  'START_BENCH E=5',
  'M98 P"x.g"',
  'if true',
  'G4 P100',
  'M73 P5',
  'X5 E5',
  'M106 S255',
  'G1.5 E9',
  'G-1 E9',
  'E5',
  'G',
  '*',
  'N7',
  '\u00e9 E5',
  'g12 e5',
)

const odd: fc.Arbitrary<string> = fc.oneof(
  line('G1X', place, 'Y', place, 'E', feedLength),
  line('G1 X', place, ' E', feedLength, ' E', feedLength),
  line('G1 X', place, ' E', feedLength, ' (to ', place, ' E', feedLength, ')'),
  line('G1 X', place, ' E', feedLength, ' G1 X', place, ' E', feedLength),
  line('G92 E0 G1 X', place, ' E', feedLength),
  line('M83 G1 X', place, ' E', feedLength),
  line('G1 X', place, ' E', feedLength, ':', feedLength),
  line('G1 X', place, ' E', feedLength, '.5'),
  line('G1 X', place, ' E.', fc.integer({ min: 0, max: 999 })),
  line('G1 X1E', fc.integer({ min: -3, max: 3 })),
  line('G1 X', place, ' E+', feedLength, ' F3139.50675.7'),
  line('G1 E', feedLength, ' X', place, ' M117 E9'),
  oneOf('G92E0', 'G1E2', 'G1E2.5X10', 'G1 X5.E1', 'G1 Z+0.5', 'G1 X-5 E1.', 'g1 x5 e1'),
)

/** What ends the reading: rare, so that most programs are read to their end. */
const fatal: fc.Arbitrary<string> = oneOf(
  'G1 X5 E',
  'G1 E{x}',
  'M808 L0',
  'G1 E1000000000',
  'M117 \0',
)

const anyLine: fc.Arbitrary<string> = fc.oneof(
  { weight: 50, arbitrary: moves },
  { weight: 10, arbitrary: modes },
  { weight: 12, arbitrary: settings },
  { weight: 6, arbitrary: course },
  { weight: 6, arbitrary: texts },
  { weight: 8, arbitrary: odd },
)

/** Ways of writing the same line; what they change, they change for both readers. */
export const mutators: readonly ((text: string) => string)[] = [
  (text) => text.toLowerCase(),
  (text) => text.replaceAll(' ', ''),
  (text) => text.replaceAll(' ', '\t'),
  (text) => ` \t${text}`,
  (text) => `N12 ${text}*71`,
  (text) => `N7${text}`,
  (text) => `${text} ; E9 (G1 E5)`,
  (text) => `${text};`,
  (text) => `${text}   `,
  (text) => `${text} F600`,
  (text) => text.replace(/^G1 /, 'G01 '),
  (text) => text.replace(/\.([0-9]+)/, '.$1.$1'),
  (text) => text.replace(/(\d) /, '$1 , '),
  (text) => `${text} T1`,
]

const mutator = fc.oneof(
  { weight: 4, arbitrary: fc.constant((text: string) => text) },
  { weight: 1, arbitrary: fc.constantFrom(...mutators) },
)
const mutated: fc.Arbitrary<string> = fc
  .tuple(anyLine, mutator)
  .map(([text, mutate]) => mutate(text))

const block: fc.Arbitrary<readonly string[]> = fc.array(mutated, { maxLength: 12 })

const loop = (body: fc.Arbitrary<readonly string[]>): fc.Arbitrary<readonly string[]> =>
  fc
    .tuple(fc.integer({ min: 1, max: 3 }), fc.boolean(), body)
    .map(([times, named, lines]) =>
      named
        ? [`SDCARD_LOOP_BEGIN COUNT=${times}`].concat(lines, 'SDCARD_LOOP_END')
        : [`M808 L${times}`].concat(lines, 'M808'),
    )

/** A small print: strokes at rising heights, in relative or absolute E. */
const layers: fc.Arbitrary<readonly string[]> = fc
  .tuple(
    fc.integer({ min: 1, max: 6 }),
    fc.integer({ min: 2, max: 6 }),
    fc.integer({ min: 2, max: 20 }),
  )
  .map(([count, step, strokes]) =>
    Array.from({ length: count }, (_, layer) =>
      [`G1 Z${((layer + 1) * step * 0.05).toFixed(2)}`].concat(
        Array.from({ length: strokes }, (__, at) => `G1 X${at % 2 === 0 ? 20 : 0} E0.5`),
      ),
    ).flat(),
  )

const part: fc.Arbitrary<readonly string[]> = fc.oneof(
  { weight: 6, arbitrary: block },
  { weight: 2, arbitrary: loop(block) },
  { weight: 1, arbitrary: loop(loop(block)) },
  { weight: 2, arbitrary: layers },
)

/** A program as bytes. */
export const randomProgram: fc.Arbitrary<Uint8Array> = fc
  .tuple(
    fc.constantFrom('\n', '\n', '\n', '\r\n', '\r'),
    fc.boolean(),
    fc.constantFrom('', '', '', '\ufeff'),
    oneOf('G28', 'M83', 'G90'),
    fc.array(part, { minLength: 1, maxLength: 8 }),
    fc.oneof({ weight: 8, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: fatal }),
  )
  .map(([end, last, mark, first, parts, stop]) => {
    const lines = [first].concat(parts.flat(), stop ?? [])
    return new TextEncoder().encode(`${mark}${lines.join(end)}${last ? end : ''}`)
  })

export const randomOptions: fc.Arbitrary<ReadOptions> = fc.record(
  {
    firmware: fc.constantFrom('community', 'community-1', 'meta', 'host', 'textfile'),
    eUnit: fc.constantFrom('code', 'code', 'code', 'mm', 'mm3'),
    eMode: fc.constantFrom('code', 'code', 'code', 'relative', 'absolute'),
    diameter_mm: fc.constantFrom(1.75, 2.85),
  },
  { requiredKeys: [] },
)
