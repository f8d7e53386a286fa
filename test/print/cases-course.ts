/** Cases about the course of a print: loops, stops, names, layers, passes, start macro. */
import { type Case, program } from './case.ts'

const relative = (...lines: readonly string[]): string => program('M83', ...lines)

/** Two extruding moves of 1 mm each at a height: 2 mm of filament. */
const bar = (height: number): readonly string[] => [
  `G1 Z${height} F600`,
  'G1 X10 E1 F1200',
  'G1 X0 E1',
]
const bars = (...heights: readonly number[]): readonly string[] => heights.flatMap(bar)
/** Straight extruding moves of 0.5 mm each, there and back. */
const strokes = (count: number): readonly string[] =>
  Array.from({ length: count }, (_, index) => `G1 X${index % 2 === 0 ? 20 : 0} E0.5`)

const loops: readonly Case[] = [
  {
    name: 'M808 L3',
    code: relative('M808 L3', 'G1 X5 E1', 'G1 X0 E2', 'M808', 'G1 X5 E4'),
    draw: { all: { 0: 13 } }, // 3 · 3 + 4
    must: ['loop'],
    lines: 6,
  },
  {
    name: 'M808 L1 runs once',
    code: relative('M808 L1', 'G1 X5 E1', 'M808', 'G1 X5 E4'),
    draw: { all: { 0: 5 } },
  },
  {
    name: 'SDCARD_LOOP_BEGIN COUNT=4',
    code: relative('SDCARD_LOOP_BEGIN COUNT=4', 'G1 X5 E1', 'SDCARD_LOOP_END', 'G1 E0.5'),
    draw: { all: { 0: 4.5 } },
    must: ['loop'],
    mustNot: ['macro_calls'],
  },
  {
    name: 'a loop in a loop',
    // 2 · (1 + 3 · 10 + 0.5)
    code: relative('M808 L2', 'G1 E1', 'M808 L3', 'G1 E10', 'M808', 'G1 E0.5', 'M808'),
    draw: { all: { 0: 63 } },
  },
  {
    name: 'eight loops deep',
    // 2⁸ · 1
    code: relative(...Array(8).fill('M808 L2'), 'G1 E1', ...Array(8).fill('M808')),
    draw: { all: { 0: 256 } },
  },
  {
    name: 'one loop after another',
    code: relative('M808 L2', 'G1 E1', 'M808', 'M808 L5', 'G1 E1', 'M808'),
    draw: { all: { 0: 7 } },
  },
  {
    name: 'an absolute body is at its place the second time',
    code: program('M808 L3', 'G1 X5 E5', 'G1 X0 E10', 'M808'),
    // 10; then back to 5 and up to 10, twice: 5 less, 5 more.
    draw: { all: { 0: 10 } },
  },
  {
    name: 'an absolute body that starts again',
    code: program('M808 L3', 'G92 E0', 'G1 X5 E5', 'G1 X0 E10', 'M808'),
    draw: { all: { 0: 30 } },
  },
  {
    name: 'what a body leaves behind counts the next time',
    // The first round is absolute to 2, the second and third relative by 2.
    code: program('M808 L3', 'G1 X5 E2', 'M83', 'M808'),
    draw: { all: { 0: 6 } },
  },
  {
    name: 'a loop that changes tools',
    code: relative('M808 L2', 'G1 E1', 'T1', 'M808', 'G1 E3'),
    draw: { all: { 0: 1, 1: 4 } },
  },
  {
    name: 'closing without a loop',
    code: relative('M808', 'SDCARD_LOOP_END', 'G1 E1', 'M808'),
    draw: { all: { 0: 1 } },
  },
  {
    name: 'L1 that is never closed',
    code: relative('M808 L1', 'G1 E1'),
    draw: { all: { 0: 1 } },
  },
  {
    name: 'a loop with N and checksums',
    code: relative('N10 M808 L3*12', 'N11 G1 E1*13', 'N12 M808*14'),
    draw: { all: { 0: 3 } },
  },
  {
    name: 'L2.9 is 2',
    code: relative('M808 L2.9', 'G1 E1', 'M808'),
    draw: { all: { 0: 2 } },
  },
  {
    name: 'L1e99 is L1 and a word E99',
    code: relative('M808 L1e99', 'G1 E1', 'M808'),
    draw: { all: { 0: 1 } },
  },
  {
    name: 'an empty body',
    code: relative('M808 L1000', 'M808', 'G1 E1'),
    draw: { all: { 0: 1 } },
  },
  {
    name: 'a loop of CRLF lines with no end at the end',
    code: 'M83\r\nM808 L3\r\nG1 E1\r\nM808',
    draw: { all: { 0: 3 } },
    lines: 4,
  },
  {
    name: 'layers drawn by a loop',
    code: relative('G91', 'M83', 'M808 L4', 'G1 Z0.25', 'G1 X10 E1', 'G1 X-10 E1', 'M808'),
    options: { firmware: 'community' },
    draw: { community: { 0: 8 } },
    heights: [0.25, 0.5, 0.75, 1],
    layerEnd: { 0: [2, 4, 6, 8] },
  },
]

const stops: readonly Case[] = [
  {
    name: 'M600 between layers',
    code: relative(...bars(0.2, 0.4), 'M600', ...bars(0.6)),
    draw: { all: { 0: 6 } },
    // M83, two bars of three lines, then the stop.
    stops: [{ kind: 'change', line: 8, layer: 2, draw: 4 }],
  },
  {
    name: 'every kind of stop',
    code: program(
      'M0',
      'M1',
      'M25',
      'M226',
      'M600',
      'M601',
      'PAUSE',
      'M2',
      'M30',
      'CANCEL_PRINT',
      'G1 E1',
    ),
    draw: { all: { 0: 1 } },
    stops: (
      ['pause', 'pause', 'pause', 'pause', 'change', 'pause', 'pause', 'end', 'end', 'end'] as const
    ).map((kind, index) => ({ kind, line: index + 1, layer: 0, draw: 0 })),
    mustNot: ['macro_calls'],
  },
  {
    name: 'a stop in a loop is noted each time',
    code: relative('M808 L2', ...bars(0.2), 'M600', 'M808'),
    draw: { all: { 0: 4 } },
    stops: [
      { kind: 'change', line: 6, layer: 1, draw: 2 },
      { kind: 'change', line: 6, layer: 1, draw: 4 },
    ],
  },
  {
    name: 'a stop with a message',
    code: relative(...bars(0.2), 'M0 Change to red E500', ...bars(0.4)),
    draw: { all: { 0: 4 } },
    stops: [{ kind: 'pause', line: 5, layer: 1, draw: 2 }],
  },
  {
    name: 'reading goes on behind an end',
    code: relative('G1 E1', 'M2', 'G1 E2'),
    draw: { all: { 0: 3 } },
    stops: [{ kind: 'end', line: 3, layer: 0, draw: 1 }],
  },
  {
    name: 'a stop in a comment or a text is none',
    code: relative('; M600', 'M117 M600', 'M6000', 'M600.1', 'G1 E1'),
    draw: { all: { 0: 1 } },
    stops: [],
  },
  {
    name: 'an M word in a command that is not read is no stop',
    code: relative('M900 K0.0 L1000.0 M1.0', 'M1002 action M0', 'G1 E1'),
    stops: [],
  },
  {
    name: 'M25 is not M250',
    code: relative('M250', 'M2500', 'M226', 'G1 E1'),
    stops: [{ kind: 'pause', line: 4, layer: 0, draw: 0 }],
  },
]

const names: readonly Case[] = [
  {
    name: 'states kept and brought back',
    code: program(
      'G1 E10',
      'SAVE_GCODE_STATE NAME=park',
      'M83',
      'G1 E-1',
      'G92 E0',
      'RESTORE_GCODE_STATE NAME=park',
      'G1 E12',
    ),
    // host: 10 − 1, absolute again with E at 10, 2 more. Elsewhere M83 stays: 10 − 1 + 12.
    draw: { all: { 0: 21 }, host: { 0: 11 } },
    mustNot: ['macro_calls'],
  },
  {
    name: 'a state keeps the flow',
    code: relative(
      'M221 S50',
      'SAVE_GCODE_STATE NAME=a',
      'M221 S200',
      'G1 E1',
      'RESTORE_GCODE_STATE NAME=a',
      'G1 E1',
    ),
    draw: { all: { 0: 4 }, host: { 0: 2.5 } },
  },
  {
    name: 'two states do not mix',
    code: program(
      'SAVE_GCODE_STATE NAME=a',
      'M83',
      'SAVE_GCODE_STATE NAME=b',
      'RESTORE_GCODE_STATE NAME=a',
      'G1 E5',
      'G1 E7',
      'RESTORE_GCODE_STATE NAME=b',
      'G1 E1',
    ),
    // host: absolute to 7, then b: relative, 1 more. Elsewhere relative: 5 + 7 + 1.
    draw: { all: { 0: 13 }, host: { 0: 8 } },
  },
  {
    name: 'an unknown state',
    code: relative('RESTORE_GCODE_STATE NAME=never', 'G1 E2'),
    draw: { all: { 0: 2 } },
  },
  {
    name: 'feeds that are not followed',
    code: relative('FORCE_MOVE STEPPER=extruder DISTANCE=50 VELOCITY=5', 'G1 E2'),
    draw: { all: { 0: 2 } },
    must: ['feed_not_followed'],
    mustNot: ['macro_calls'],
  },
  ...[
    'SYNC_EXTRUDER_MOTION EXTRUDER=extruder1 MOTION_QUEUE=extruder',
    'SET_EXTRUDER_ROTATION_DISTANCE EXTRUDER=extruder DISTANCE=7',
    'SET_GCODE_OFFSET E=1',
    'M92 E400',
  ].map(
    (line): Case => ({
      name: `not followed: ${line}`,
      code: relative(line, 'G1 E2'),
      draw: { all: { 0: 2 } },
      must: ['feed_not_followed'],
    }),
  ),
  ...['SET_GCODE_OFFSET Z=0.05', 'M92 X80 Y80'].map(
    (line): Case => ({
      name: `harmless: ${line}`,
      code: relative(line, 'G1 E2'),
      draw: { all: { 0: 2 } },
      mustNot: ['feed_not_followed'],
    }),
  ),
  ...['M163 S0 P0.5', 'M164 S1', 'M165 A0.5 B0.5', 'M166 A0 Z1', 'M567 P0 E0.5:0.5'].map(
    (line): Case => ({
      name: `mixing: ${line}`,
      code: relative(line, 'G1 E2'),
      draw: { all: { 0: 2 } },
      must: ['mixing'],
    }),
  ),
  ...['M98 P"clean.g"', 'M810', 'M819', 'START_BENCH BED=60', 'PURGE'].map(
    (line): Case => ({
      name: `hidden macro: ${line}`,
      code: relative(line, 'G1 E2'),
      draw: { all: { 0: 2 } },
      must: ['macro_calls'],
    }),
  ),
  {
    name: 'no hidden macro',
    code: relative('G28', 'Printed at the harbour', 'M820', 'G1 E2'),
    draw: { all: { 0: 2 } },
    mustNot: ['macro_calls'],
  },
  {
    name: 'moves inside meta commands count once',
    code: relative('if state.status == "idle"', '  G1 E5', 'else', '  G1 E7', 'var x = 3'),
    draw: { all: { 0: 12 } },
    must: ['meta_commands'],
  },
  {
    name: 'a macro text with moves',
    code: relative('M810 G1 E5|G1 E7', 'G1 E2'),
    draw: { all: { 0: 2 } },
  },
]

const layers: readonly Case[] = [
  {
    name: 'three layers',
    code: relative(...bars(0.2, 0.4, 0.6)),
    draw: { all: { 0: 6 } },
    heights: [0.2, 0.4, 0.6],
    passes: 1,
    spiral: false,
    startMacro: { 0: 0 },
    layerEnd: { 0: [2, 4, 6] },
  },
  {
    name: 'a layer ends when the next opens: what is fed between belongs to it',
    code: relative(...bars(0.2), 'G1 E-1', 'G1 Z0.4', 'G1 X30', 'G1 E1.5', 'G1 X0 E1'),
    // 2, back to 1, up to 2.5 before the second layer, 3.5 in all.
    heights: [0.2, 0.4],
    layerEnd: { 0: [2.5, 3.5] },
  },
  {
    name: 'no layers, all of it start macro',
    code: relative('G1 E5', 'G1 E-2'),
    draw: { all: { 0: [3, 5] } },
    heights: [],
    passes: 0,
    startMacro: { 0: 5 },
    layerEnd: { 0: [] },
  },
  {
    name: 'a hop is no layer',
    code: relative(...bars(0.2), 'G1 Z0.8', 'G1 X50', 'G1 Z0.2', 'G1 X40 E1', ...bars(0.4)),
    heights: [0.2, 0.4],
    layerEnd: { 0: [3, 5] },
  },
  {
    name: 'less than 0.02 mm is the same layer',
    code: relative(...bars(0.2, 0.21, 0.4)),
    heights: [0.2, 0.4],
    layerEnd: { 0: [4, 6] },
  },
  {
    name: 'priming in the air before G92 E0',
    code: relative('G1 Z5', 'G1 X50 E10', 'G92 E0', ...bars(0.2, 0.4)),
    draw: { all: { 0: 14 } },
    heights: [0.2, 0.4],
    startMacro: { 0: 10 },
    layerEnd: { 0: [12, 14] },
  },
  {
    name: 'priming in the air and nothing behind it: the first layer is lowered',
    code: relative('G1 Z5', 'G1 X50 E10', ...bars(0.2, 0.4)),
    heights: [0.2, 0.4],
    startMacro: { 0: 0 },
    layerEnd: { 0: [12, 14] },
  },
  {
    name: 'a blob without travel before the first layer is start macro',
    code: relative('G1 E7', ...bars(0.2)),
    heights: [0.2],
    startMacro: { 0: 7 },
    layerEnd: { 0: [9] },
  },
  {
    name: 'sixteen strokes, then G92 E0: setting up',
    code: relative('G28', 'G1 Z0.2', ...strokes(16), 'G92 E0', ...bars(0.3)),
    heights: [0.3],
    startMacro: { 0: 8 },
    layerEnd: { 0: [10] },
  },
  {
    name: 'seventeen strokes, then G92 E0: printing',
    code: relative('G28', 'G1 Z0.2', ...strokes(17), 'G92 E0', ...bars(0.4)),
    heights: [0.2, 0.4],
    startMacro: { 0: 0 },
    layerEnd: { 0: [8.5, 10.5] },
  },
  {
    name: 'two layers, then G92 E0: printing, however small the print',
    code: relative('G28', ...bars(0.2, 0.4), 'G92 E0', ...bars(0.6)),
    heights: [0.2, 0.4, 0.6],
    startMacro: { 0: 0 },
    layerEnd: { 0: [2, 4, 6] },
  },
  {
    name: 'an arc, then G92 E0: printing',
    code: relative('G1 Z0.2', 'G2 X5 Y5 I2 J2 E1', 'G92 E0', ...bars(0.4)),
    heights: [0.2, 0.4],
    startMacro: { 0: 0 },
  },
  {
    name: 'waiting for heat starts the count of strokes again',
    code: relative('G1 Z0.2', ...strokes(20), 'M109 S210', ...strokes(2), 'G92 E0', ...bars(0.4)),
    heights: [0.4],
    startMacro: { 0: 11 },
  },
  {
    name: 'sixty-four moves, then G28: setting up',
    code: relative('G1 Z0.2', ...strokes(64), 'G28', ...bars(0.4)),
    heights: [0.4],
    startMacro: { 0: 32 },
  },
  {
    name: 'sixty-five moves, then G28: printing',
    code: relative('G1 Z0.2', ...strokes(65), 'G28', ...bars(0.4)),
    heights: [0.2, 0.4],
    startMacro: { 0: 0 },
    layerEnd: { 0: [32.5, 34.5] },
  },
  {
    name: 'M109 in the middle of a print is not setting up, nor the G92 behind it',
    code: relative('G1 Z0.2', ...strokes(70), 'M109 S210', 'G92 E0', ...bars(0.4)),
    heights: [0.2, 0.4],
  },
  ...['G29', 'G29.1', 'G29 P1', 'M190 S60', 'M191 S40', 'M116', 'M109 R200', 'G28 X Y'].map(
    (line): Case => ({
      name: `setting up: ${line}`,
      code: relative('G1 Z0.2', ...strokes(20), line, ...bars(0.4)),
      heights: [0.4],
      startMacro: { 0: 10 },
    }),
  ),
  ...['M104 S200', 'M140 S60', 'T100', 'T0', 'G92 X0', 'G92 E', 'G90', 'G21'].map(
    (line): Case => ({
      name: `not setting up: ${line}`,
      code: relative('G1 Z0.2', ...strokes(5), line, ...bars(0.4)),
      options: { firmware: 'meta' },
      heights: [0.2, 0.4],
      startMacro: { 0: 0 },
    }),
  ),
  ...['M83', 'G92 E0', 'G92 X1 E5'].map(
    (line): Case => ({
      name: `setting up, soon after the start: ${line}`,
      code: relative('G1 Z0.2', ...strokes(5), line, ...bars(0.4)),
      heights: [0.4],
      startMacro: { 0: 2.5 },
    }),
  ),
  {
    // E stands at 2.5 when it becomes absolute.
    name: 'setting up, soon after the start: M82',
    code: relative('G1 Z0.2', ...strokes(5), 'M82', 'G1 Z0.4', 'G1 X30 E9'),
    draw: { all: { 0: 9 } },
    heights: [0.4],
    startMacro: { 0: 2.5 },
  },
  {
    name: 'a raft',
    // Thick lines first, then layers that do not divide evenly.
    code: relative(...bars(0.3, 0.57, 0.78, 1.02, 1.2, 1.38)),
    heights: [0.3, 0.57, 0.78, 1.02, 1.2, 1.38],
    layerEnd: { 0: [2, 4, 6, 8, 10, 12] },
  },
  {
    name: 'objects one after another',
    code: relative(...bars(0.2, 0.4, 0.6), 'G1 Z10', 'G1 X100', ...bars(0.2, 0.4)),
    heights: [0.2, 0.4, 0.6, 0.2, 0.4],
    passes: 2,
    layerEnd: { 0: [2, 4, 6, 8, 10] },
  },
  {
    name: 'three objects',
    code: relative(...bars(0.2, 0.4, 0.6), ...bars(0.2, 0.4, 0.6), ...bars(0.15, 0.35, 0.55)),
    heights: [0.2, 0.4, 0.6, 0.2, 0.4, 0.6, 0.15, 0.35, 0.55],
    passes: 3,
  },
  {
    name: 'two layers and down again is not another object',
    code: relative(...bars(0.2, 0.4), ...bars(0.2)),
    heights: [0.2, 0.4],
    passes: 1,
    layerEnd: { 0: [2, 6] },
  },
  {
    name: 'down, but not to the first layer',
    code: relative(...bars(0.2, 0.4, 0.6, 0.8), ...bars(0.4), ...bars(1)),
    heights: [0.2, 0.4, 0.6, 0.8, 1],
    passes: 1,
    layerEnd: { 0: [2, 4, 6, 10, 12] },
  },
  {
    name: 'a spiral above two flat layers',
    // Step 0.2; the climb opens a layer at every 0.2 mm: 0.6 and 0.8.
    code: relative(
      ...bars(0.2, 0.4),
      ...[0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8].map(
        (z, index) => `G1 X${index % 2 === 0 ? 50 : 0} Z${z} E1`,
      ),
    ),
    // The climb's first three moves belong to layer 2, the fourth opens layer 3.
    draw: { all: { 0: 12 } },
    heights: [0.2, 0.4, 0.6, 0.8],
    spiral: true,
    layerEnd: { 0: [2, 7, 11, 12] },
  },
  {
    name: 'a spiral with nothing below it takes 0.2 mm',
    code: relative(
      ...Array.from(
        { length: 11 },
        (_, index) => `G1 X${index % 2 === 0 ? 50 : 0} Z${(0.3 + index * 0.05).toFixed(2)} E1`,
      ),
    ),
    // 0.30 opens, then 0.50 and 0.70.
    heights: [0.3, 0.5, 0.7],
    spiral: true,
    layerEnd: { 0: [4, 8, 11] },
  },
  {
    name: 'a sloped seam is no layer',
    code: relative(...bars(0.2, 0.4), 'G1 Z0.5', 'G1 X5 Z0.5 E0.1', ...bars(0.6)),
    // Travelling up to 0.5 and drawing there is a layer; climbing while drawing would not be.
    heights: [0.2, 0.4, 0.5, 0.6],
  },
  {
    name: 'a seam that climbs while it draws',
    code: relative(...bars(0.2, 0.4), 'G1 X5 Z0.45 E0.5', 'G1 X15 Z0.5 E0.5', ...bars(0.6)),
    heights: [0.2, 0.4, 0.6],
    spiral: false,
    layerEnd: { 0: [2, 5, 7] },
  },
  {
    name: 'two tools in a layer',
    code: relative('G1 Z0.2', 'G1 X10 E1', 'T1', 'M109 S200', 'G1 X0 E2', ...bars(0.4)),
    // T1 and the heat come soon after the start: what T0 drew was setting up.
    draw: { all: { 0: 1, 1: 4 } },
    heights: [0.2, 0.4],
    startMacro: { 0: 1, 1: 0 },
    layerEnd: { 0: [1, 1], 1: [2, 4] },
  },
  {
    name: 'peak and not net at layer ends',
    code: relative(...bars(0.2), 'G1 E-5', ...bars(0.4)),
    // 2, back to −3, up to −1.
    draw: { all: { 0: [-1, 2] } },
    layerEnd: { 0: [2, 2] },
  },
  {
    name: 'X and Y standing still is no extruding move',
    code: relative('G1 X5', 'G1 Z0.2', 'G1 X5 E5', 'G1 X6 E1'),
    heights: [0.2],
    startMacro: { 0: 5 },
  },
  {
    name: 'relative axes',
    code: program('G91', 'M83', 'G1 Z0.3', 'G1 X10 E1', 'G1 Z0.25', 'G1 Y10 E1', 'G1 X0 Y0 E1'),
    draw: { all: { 0: 3 } },
    heights: [0.3, 0.55],
    layerEnd: { 0: [1, 3] },
  },
  {
    name: 'G92 Z moves the heights',
    code: relative('G1 Z5', 'G92 Z0', 'G1 Z0.3', 'G1 X10 E1'),
    heights: [0.3],
  },
]

/** A whole small print with a start and an end macro, as files really are. */
const whole: readonly Case[] = [
  {
    name: 'a whole print: start macro, three layers, end macro',
    code: program(
      '; made for the bench',
      'G90',
      'M82',
      'M104 S210',
      'M190 S60',
      'M109 S210',
      'G28',
      'G92 E0',
      'G1 Z2',
      'G1 X0.1 Y20 Z0.3 F5000',
      'G1 X0.1 Y200 E15',
      'G1 X0.4 Y200',
      'G1 X0.4 Y20 E30',
      'G92 E0',
      'G1 Z0.2',
      'G1 X10 E1',
      'G1 X20 E2',
      'G1 E-3',
      'G1 Z0.4',
      'G1 E2',
      'G1 X10 E3',
      'G1 Z0.6',
      'G1 X20 E4.5',
      'G91',
      'G1 E-2',
      'G90',
      'M104 S0',
      'M84',
    ),
    // 30 in the start macro, 4.5 in the print. The last 'G1 E-2' is relative where G91 makes E so;
    // under meta it is absolute: 6.5 back.
    draw: { all: { 0: [32.5, 34.5] }, meta: { 0: [28, 34.5] } },
    heights: [0.2, 0.4, 0.6],
    startMacro: { 0: 30 },
    layerEnd: { 0: [32, 33, 34.5] },
    passes: 1,
    spiral: false,
  },
]

export const courseCases: readonly Case[] = [...loops, ...stops, ...names, ...layers, ...whole]
