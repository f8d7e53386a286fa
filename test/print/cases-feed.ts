/** Cases about what feeds: lines and words, the E mode, G92, units, tools, flow, volume, retraction. */
import { type Case, type ExpectedDraw, type Feeds, program } from './case.ts'

const area = (diameter: number): number => (Math.PI * diameter ** 2) / 4
const same = (all: Feeds): ExpectedDraw => ({ all })

/** 5, then 7: relative they add up to 12, absolute they end at 7. */
const probe = ['G1 X10 E5', 'G1 X20 E7']
const eMode: readonly Case[] = [
  { name: 'E starts absolute', code: program(...probe), draw: same({ 0: 7 }) },
  { name: 'G90, M83', code: program('G90', 'M83', ...probe), draw: same({ 0: 12 }) },
  {
    name: 'M83, G90: the linked families are absolute again',
    code: program('M83', 'G90', ...probe),
    draw: { all: { 0: 12 }, community: { 0: 7 }, textfile: { 0: 7 } },
  },
  {
    name: 'G91 alone',
    code: program('G91', ...probe),
    draw: { all: { 0: 12 }, meta: { 0: 7 } },
  },
  {
    name: 'G91, M82: either flag keeps E relative on two families',
    code: program('G91', 'M82', ...probe),
    draw: { all: { 0: 7 }, 'community-1': { 0: 12 }, host: { 0: 12 } },
  },
  {
    name: 'M83, G91, G90: a park macro',
    code: program('M83', 'G91', 'G90', ...probe),
    draw: { all: { 0: 12 }, community: { 0: 7 }, textfile: { 0: 7 } },
  },
  {
    // 5 relative leaves E at 5; the absolute 8 asks 3 more.
    name: 'relative moves advance E',
    code: program('M83', 'G1 E5', 'M82', 'G1 E8'),
    draw: same({ 0: 8 }),
  },
  { name: 'M82 after M83', code: program('M83', 'M82', ...probe), draw: same({ 0: 7 }) },
]

/** E at 10, then the form, then E12: 12 when E was left alone, 22 when it became 0. */
const g92 = (form: string): string => program('G1 E10', form, 'G1 E12')
const g92Cases: readonly Case[] = [
  { name: 'G92 E5', code: g92('G92 E5'), draw: same({ 0: 17 }) },
  { name: 'G92 E0', code: g92('G92 E0'), draw: same({ 0: 22 }) },
  // 12 − (−3) = 15 more.
  { name: 'G92 E-3', code: g92('G92 E-3'), draw: same({ 0: 25 }) },
  { name: 'G92 X0', code: g92('G92 X0'), draw: same({ 0: 12 }) },
  { name: 'G92 X0 Y0 E0', code: g92('G92 X0 Y0 E0'), draw: same({ 0: 22 }) },
  {
    name: 'bare G92',
    code: g92('G92'),
    draw: { all: { 0: 12 }, host: { 0: 22 }, textfile: { 0: 22 } },
  },
  {
    name: 'bare G92 with a comment and a checksum',
    code: g92('N3 G92 *22 ; E0'),
    draw: { all: { 0: 12 }, host: { 0: 22 }, textfile: { 0: 22 } },
  },
  {
    name: 'G92 E without a number',
    code: g92('G92 E'),
    draw: { all: { 0: 12 }, textfile: { 0: 22 } },
  },
  { name: 'G92.1 is another command', code: g92('G92.1'), draw: same({ 0: 12 }) },
  {
    name: 'G92E0: an exponent where exponents are read',
    code: g92('G92E0'),
    draw: { all: { 0: 22 }, meta: { 0: 12 } },
    must: ['dense_e'],
  },
  {
    name: 'G92 feeds nothing',
    code: program('M83', 'G92 E100', 'G1 E1'),
    draw: same({ 0: 1 }),
  },
]

const relative = (...lines: readonly string[]): string => program('M83', ...lines)

const signs: readonly Case[] = [
  // 10 − 4 = 6 in all; 10 was reached.
  { name: 'net and peak', code: relative('G1 E10', 'G1 E-4'), draw: same({ 0: [6, 10] }) },
  { name: 'retraction first', code: relative('G1 E-4', 'G1 E3'), draw: same({ 0: [-1, 0] }) },
  {
    name: 'peak in the middle',
    code: relative('G1 E10', 'G1 E-4', 'G1 E4.5', 'G1 E-9'),
    draw: same({ 0: [1.5, 10.5] }),
  },
  {
    name: 'five hundred retractions cost nothing',
    code: relative(...Array.from({ length: 500 }, () => 'G1 E-0.75\nG1 E0.75'), 'G1 E1'),
    draw: same({ 0: 1 }),
  },
  { name: 'opens with an un-retract', code: program('G1 E8', 'G1 E0'), draw: same({ 0: [0, 8] }) },
  { name: 'a move without E feeds nothing', code: program('G1 X10 Y10 F3000'), draw: same({}) },
  { name: 'E0 relative feeds nothing', code: relative('G1 X10 E0'), draw: same({}) },
]

const words: readonly Case[] = [
  // Under meta Y5E.3 is no exponent: a point is no digit.
  {
    name: 'dense line G1X10Y5E.3',
    code: program('G1X10Y5E.3'),
    draw: same({ 0: 0.3 }),
    mustNot: ['dense_e'],
  },
  {
    name: 'dense line X1E5: an exponent where exponents are read',
    code: relative('G1X1E5', 'G1 X2 E1'),
    draw: { all: { 0: 6 }, meta: { 0: 1 } },
    must: ['dense_e'],
  },
  {
    name: 'dense with a sign and with a point before the E',
    // X1E-2 is an exponent for meta, X1.E-2 is none: 5 − 2 − 2 and 5 − 2.
    code: relative('G1 E5', 'G1X1E-2', 'G1X1.E-2'),
    draw: { all: { 0: [1, 5] }, meta: { 0: [3, 5] } },
  },
  { name: 'dense E first', code: relative('G1E3X10'), draw: { all: { 0: 3 }, meta: {} } },
  {
    name: 'exponent in E itself',
    // E2E1: 20 for meta; E2 then E1 elsewhere, where the last counts but under textfile the first.
    code: relative('G1 X1 E2E1'),
    draw: { all: { 0: 1 }, meta: { 0: 20 }, textfile: { 0: 2 } },
    must: ['dense_e', 'duplicate_word'],
  },
  { name: 'E.8', code: relative('G1 X1 E.8'), draw: same({ 0: 0.8 }) },
  { name: 'E1.', code: relative('G1 X1 E1.'), draw: same({ 0: 1 }) },
  { name: 'E+3', code: relative('G1 X1 E+3'), draw: same({ 0: 3 }) },
  { name: 'E-.5', code: relative('G1 E-.5'), draw: same({ 0: [-0.5, 0] }) },
  { name: 'E007', code: relative('G1 X1 E007'), draw: same({ 0: 7 }) },
  { name: 'E 5 with a space', code: relative('G1 X 1 E 5'), draw: same({ 0: 5 }) },
  { name: 'E and a tab', code: relative('G1\tX1\tE\t5'), draw: same({ 0: 5 }) },
  { name: 'Z+0.5', code: relative('G1 Z+0.5', 'G1 X5 E1'), draw: same({ 0: 1 }), heights: [0.5] },
  { name: 'F3139.50675.7', code: relative('G1 F3139.50675.7 X5 E1.5'), draw: same({ 0: 1.5 }) },
  {
    name: 'a doubled point in E',
    code: relative('G1 X5 E5.6.7'),
    draw: same({ 0: 5.6 }),
    must: ['doubled_point'],
  },
  {
    name: 'a doubled point in F is not worth a word',
    code: relative('G1 X5 E1 F1.2.3'),
    draw: same({ 0: 1 }),
    mustNot: ['doubled_point'],
  },
  { name: 'E before X', code: relative('G1 E2 X5 Y5 F600'), draw: same({ 0: 2 }) },
  { name: 'G01', code: relative('G01 X5 E2'), draw: same({ 0: 2 }) },
  { name: 'G 1', code: relative('G 1 X5 E2'), draw: same({ 0: 2 }) },
  { name: 'G1.5 is no move', code: relative('G1.5 X5 E2', 'G1 E1'), draw: same({ 0: 1 }) },
  { name: 'G10 is not G1 and 0', code: relative('G10', 'G1 E1'), draw: same({ 0: 1 }) },
  { name: 'G12 X5 E9 feeds nothing', code: relative('G12 X5 E9', 'G1 E1'), draw: same({ 0: 1 }) },
  {
    name: 'lower case',
    code: relative('g1 x5 e2'),
    draw: same({ 0: 2 }),
    must: ['lower_case'],
  },
  {
    name: 'the same letter twice',
    code: relative('G1 X5 E2 E3'),
    draw: { all: { 0: 3 }, meta: { 0: 2 }, textfile: { 0: 2 } },
    must: ['duplicate_word'],
  },
  {
    name: 'X twice is not worth a word',
    code: relative('G1 X5 X6 E3'),
    draw: same({ 0: 3 }),
    mustNot: ['duplicate_word'],
  },
  {
    name: 'a bracket on a move',
    // Letters in brackets are words, the last counts or the first; textfile drops them all.
    code: relative('G1 X5 E2 (not E5)'),
    draw: { all: { 0: 5 }, meta: { 0: 2 }, textfile: { 0: 2 } },
    must: ['bracket_on_move'],
  },
  {
    name: 'a bracket before E',
    code: relative('G1 X5 (up) E2', 'G1 X0 E1'),
    draw: { all: { 0: 3 }, textfile: { 0: 1 } },
    must: ['bracket_on_move'],
  },
  {
    name: 'a bracket on a line of its own',
    code: relative('(layer E5)', 'G1 X5 E2'),
    draw: same({ 0: 2 }),
    mustNot: ['bracket_on_move'],
  },
  { name: 'a decimal comma', code: relative('G1 X5 E1,5'), draw: same({ 0: 1 }) },
  {
    name: 'a number of drives',
    code: relative('G1 X5 E1.25:0.75'),
    draw: { all: { 0: 1.25 }, meta: { 0: 1.25, 1: 0.75 } },
  },
  {
    name: 'a number of drives on absolute E: the first counts',
    code: program('G1 X5 E1.25:0.75'),
    options: { firmware: 'community' },
    draw: { community: { 0: 1.25 } },
  },
]

const lines: readonly Case[] = [
  {
    name: 'CRLF',
    code: 'M83\r\nG1 X5 E1\r\nG1 X0 E2\r\n',
    draw: same({ 0: 3 }),
    lines: 3,
    mustNot: ['lone_cr'],
  },
  {
    name: 'CR alone',
    code: 'M83\rG1 X5 E1\rG1 X0 E2\r',
    draw: same({ 0: 3 }),
    lines: 3,
    must: ['lone_cr'],
  },
  {
    name: 'a mixture of ends',
    code: 'M83\r\nG1 X5 E1\rG1 X0 E2\nG1 X5 E3',
    draw: same({ 0: 6 }),
    lines: 4,
  },
  { name: 'no end at the end', code: 'M83\nG1 X5 E1', draw: same({ 0: 1 }), lines: 2 },
  { name: 'empty lines count', code: '\n\nM83\n\nG1 X5 E1\n', draw: same({ 0: 1 }), lines: 5 },
  {
    name: 'a byte-order mark before the first command',
    code: '\ufeffM83\nG1 X5 E1\nG1 X6 E1\n',
    draw: same({ 0: 2 }),
    must: ['byte_order_mark'],
  },
  { name: 'indented', code: '  \t M83\n \tG1 X5 E1\n\t\tG1 X6 E1\n', draw: same({ 0: 2 }) },
  {
    name: 'N and a checksum',
    code: program('N1 M83*36', 'N2 G1 X5 E1*90', 'N3 G1 X6 E1 *12'),
    draw: same({ 0: 2 }),
  },
  {
    name: 'N without a space',
    code: program('N1M83', 'N2G1X5 E1', 'N003 G1 X6 E1'),
    draw: same({ 0: 2 }),
  },
  {
    name: 'what follows a checksum is dropped',
    code: relative('G1 X5 E1*9 E7'),
    draw: same({ 0: 1 }),
  },
  {
    name: 'a comment that looks like a move',
    code: relative('G1 X5 E1 ; G1 E100', ';G1 E50', '  ; E3'),
    draw: same({ 0: 1 }),
  },
  { name: 'a comment right behind a number', code: relative('G1 X5 E1;E5'), draw: same({ 0: 1 }) },
  {
    name: '% and / lines',
    code: program('%', 'M83', '/G1 X5 E9', '% G1 E9', 'G1 X5 E1', 'N7 /G1 E4'),
    draw: same({ 0: 1 }),
  },
  {
    name: 'M117 text',
    code: relative('M117 Extruding E500 X9', 'M118 E1 G1 E5', 'G1 X5 E1'),
    draw: same({ 0: 1 }),
  },
  {
    name: 'prose without a semicolon',
    code: relative('Extrude E500 now, G1 E5', 'Moving E5', 'e5', 'G1 X5 E1'),
    draw: same({ 0: 1 }),
  },
  {
    name: 'a vendor command with an E',
    code: relative('M1006 A0 B0 E37', 'M620 E9', 'G392 E4', 'G1 X5 E1'),
    draw: same({ 0: 1 }),
  },
  ...[
    'M16',
    'M23',
    'M28',
    'M30',
    'M32',
    'M98',
    'M118',
    'M486',
    'M550',
    'M587',
    'M701',
    'M815',
    'M928',
    'M1000',
    'M9999',
  ].map(
    (command): Case => ({
      name: `${command} carries text`,
      code: relative(`${command} G1 X5 E5`, 'G1 X5 E1'),
      draw: same({ 0: 1 }),
    }),
  ),
  { name: 'an axis word first', code: relative('G1 X5 E1', 'X10 E5'), draw: same({ 0: 1 }) },
  {
    name: 'a command behind a word is text',
    code: relative('; ok', 'X5 G1 E4', 'G1 X5 E1'),
    draw: same({ 0: 1 }),
  },
  {
    name: 'temperatures are not feeds',
    code: relative('M104 S200 E0', 'M109 S200 E5', 'G4 S1 E2', 'G1 X5 E1'),
    draw: same({ 0: 1 }),
  },
  { name: 'G0 feeds too', code: relative('G0 X5 E1', 'G00 X6 E1'), draw: same({ 0: 2 }) },
  {
    name: 'G2, G3, G5 feed',
    code: relative('G2 X5 Y5 I1 J2 E1', 'G3 X0 Y0 R4 E2', 'G5 X1 Y1 I1 J1 P1 Q1 E4'),
    draw: same({ 0: 7 }),
  },
  {
    name: 'a full circle without X and Y',
    code: relative('G2 I5 J0 E3'),
    draw: same({ 0: 3 }),
    heights: [0],
  },
  {
    name: 'two moves on a line',
    // Both run under meta and textfile; elsewhere the last of each letter counts, once.
    code: relative('G1 X5 E1 G1 X6 E2'),
    draw: { all: { 0: 2 }, meta: { 0: 3 }, textfile: { 0: 3 } },
    must: ['two_commands'],
  },
  {
    name: 'G92 E0 and a move on a line',
    // E at 10. Two commands: E := 0, then 4 more. One command: a move to E4, 6 back.
    code: program('G1 X5 E10', 'G92 E0 G1 X6 E4'),
    // Under meta and textfile G92 has an E of its own.
    draw: { all: { 0: [4, 10] }, meta: { 0: 14 }, textfile: { 0: 14 } },
    must: ['two_commands'],
  },
  {
    name: 'G90 and M83 on a line without E',
    code: program('G91 M83', ...probe),
    // The last command counts alone on three families; both leave E relative.
    draw: same({ 0: 12 }),
    mustNot: ['two_commands'],
  },
  {
    name: 'a display text behind a move',
    code: relative('G1 X5 E1', 'G1 X6 E2 M117 now E9'),
    // Where one command stands on a line it is the last one: a text.
    draw: { all: { 0: 1 }, meta: { 0: 3 }, textfile: { 0: 3 } },
  },
]

const units: readonly Case[] = [
  {
    name: 'inches',
    code: relative('G20', 'G1 X1 E1'),
    draw: { all: { 0: 25.4 }, host: { 0: 1 }, textfile: { 0: 1 } },
    must: ['inch_mode'],
  },
  {
    name: 'G21 ends inches',
    code: relative('G20', 'G21', 'G1 X1 E1'),
    draw: same({ 0: 1 }),
  },
  {
    name: 'inches scale heights',
    code: relative('G20', 'G1 Z0.01', 'G1 X1 E1'),
    heights: [0.254],
  },
  {
    name: 'inches and cubic millimetres',
    code: relative('M200 D1.75', 'G20', 'G1 X1 E1'),
    draw: {
      community: { 0: 25.4 ** 3 / area(1.75) },
      'community-1': { 0: 25.4 ** 3 / area(1.75) },
      meta: { 0: 25.4 / area(1.75) },
      host: { 0: 1 },
      textfile: { 0: 1 / area(1.75) },
    },
  },
  {
    name: 'G92 in inches',
    // E := 25.4 mm, then to 50.8: 25.4 more than the 25.4 before. Unscaled: 1, := 1, to 2.
    code: program('G20', 'G1 X1 E1', 'G92 E1', 'G1 X2 E2'),
    draw: { all: { 0: 50.8 }, host: { 0: 2 }, textfile: { 0: 2 } },
  },
]

const tools: readonly Case[] = [
  {
    name: 'absolute E over three tool changes',
    code: program('T0', 'G1 E10', 'T1', 'G1 E15', 'T0', 'G1 E20'),
    // One register: 10, 5, 5. host starts at 0 on a change: 10, 15, 20. Own registers: 10, 15, 10.
    draw: {
      all: { 0: 15, 1: 5 },
      host: { 0: 30, 1: 15 },
      textfile: { 0: 20, 1: 15 },
    },
  },
  {
    name: 'G92 E0 after each change: all agree',
    code: program('T0', 'G1 E10', 'T1', 'G92 E0', 'G1 E15', 'T0', 'G92 E0', 'G1 E20'),
    draw: same({ 0: 30, 1: 15 }),
  },
  {
    name: 'the same tool again is no change',
    code: program('T0', 'G1 E10', 'T0', 'G1 E12'),
    draw: same({ 0: 12 }),
  },
  {
    name: 'a tool parked retracted',
    code: relative('G1 E10', 'G1 E-5', 'T1', 'G1 E20', 'G1 E-5', 'T0', 'G1 E5', 'G1 E1'),
    draw: same({ 0: 11, 1: [15, 20] }),
  },
  { name: 'T99', code: relative('T99', 'G1 E2'), draw: same({ 99: 2 }) },
  { name: 'T57', code: relative('T57', 'G1 E2'), draw: same({ 57: 2 }) },
  {
    name: 'T100 is a macro',
    code: relative('T100', 'G1 E2'),
    draw: same({ 0: 2 }),
    must: ['tool_macro'],
  },
  {
    name: 'T1000 is a macro',
    code: relative('T1', 'T1000', 'G1 E2'),
    draw: same({ 1: 2 }),
    must: ['tool_macro'],
  },
  {
    name: 'T-1 selects nothing',
    code: relative('T1', 'T-1', 'G1 E2'),
    draw: same({ 1: 2 }),
    mustNot: ['tool_macro'],
  },
  {
    name: 'T? selects nothing',
    code: relative('T1', 'T?', 'Tx', 'Tc', 'T', 'G1 E2'),
    draw: same({ 1: 2 }),
  },
  { name: 'T 1', code: relative('T 1', 'G1 E2'), draw: same({ 1: 2 }) },
  { name: 't1', code: relative('t1', 'G1 E2'), draw: same({ 1: 2 }) },
  { name: 'T01', code: relative('T01', 'G1 E2'), draw: same({ 1: 2 }) },
  {
    name: 'T in other commands',
    code: relative('M104 T1 S200', 'M109 T1 S200', 'G1 X5 T1 E2'),
    draw: same({ 0: 2 }),
  },
  {
    name: 'ACTIVATE_EXTRUDER',
    code: relative(
      'ACTIVATE_EXTRUDER EXTRUDER=extruder1',
      'G1 E2',
      'ACTIVATE_EXTRUDER EXTRUDER=extruder',
      'G1 E1',
    ),
    draw: { all: { 0: 3 }, host: { 0: 1, 1: 2 } },
  },
  {
    name: 'ACTIVATE_EXTRUDER zeroes E',
    code: program('G1 E5', 'ACTIVATE_EXTRUDER EXTRUDER=extruder1', 'G1 E7'),
    draw: { all: { 0: 7 }, host: { 0: 5, 1: 7 } },
  },
]

const flow: readonly Case[] = [
  { name: 'M221 S95', code: relative('M221 S95', 'G1 E10'), draw: same({ 0: 9.5 }) },
  {
    name: 'M221 on absolute E scales what is asked',
    code: program('G1 E10', 'M221 S50', 'G1 E20'),
    draw: same({ 0: 15 }),
  },
  {
    name: 'M221, then tools: host resets the tool it changes to',
    code: relative('M221 S50', 'G1 E10', 'T1', 'G1 E10', 'T0', 'G1 E10'),
    draw: { all: { 0: 10, 1: 10 }, host: { 0: 15, 1: 10 } },
  },
  {
    name: 'M221 T1',
    code: relative('M221 T1 S50', 'G1 E10', 'T1', 'G1 E10'),
    draw: { all: { 0: 5, 1: 10 }, community: { 0: 10, 1: 5 }, 'community-1': { 0: 10, 1: 5 } },
  },
  {
    name: 'M221 D1',
    code: relative('M221 D1 S50', 'G1 E10', 'T1', 'G1 E10'),
    draw: { all: { 0: 5, 1: 10 }, meta: { 0: 10, 1: 5 } },
  },
  { name: 'M221 S', code: relative('M221 S', 'G1 E10'), draw: same({ 0: 10 }) },
  { name: 'M221 X Y', code: relative('M221 X Y', 'G1 E10'), draw: same({ 0: 10 }) },
  { name: 'M221 T', code: relative('M221 T', 'G1 E10'), draw: same({ 0: 10 }) },
  { name: 'M221', code: relative('M221', 'G1 E10'), draw: same({ 0: 10 }) },
  { name: 'M221 S-50', code: relative('M221 S-50', 'G1 E10'), draw: same({ 0: 10 }) },
  {
    name: 'M221 S250',
    code: relative('M221 S250', 'G1 E10'),
    draw: { all: { 0: 25 }, meta: { 0: 20 } },
  },
  {
    name: 'M221 S0',
    code: relative('M221 S0', 'G1 E10'),
    draw: { all: {}, meta: { 0: 10 }, host: { 0: 10 } },
  },
  {
    name: 'M221 S0.5',
    code: relative('M221 S0.5', 'G1 E10'),
    draw: { all: {}, meta: { 0: 10 }, host: { 0: 0.05 }, textfile: { 0: 0.05 } },
  },
  {
    name: 'M221 S95.75: two families cut to a whole percent',
    code: relative('M221 S95.75', 'G1 E10'),
    draw: { all: { 0: 9.575 }, community: { 0: 9.5 }, 'community-1': { 0: 9.5 } },
  },
  {
    name: 'flow back to 100',
    code: relative('M221 S50', 'G1 E10', 'M221 S100', 'G1 E10'),
    draw: same({ 0: 15 }),
  },
  { name: 'M220 is speed', code: relative('M220 S50', 'G1 E10'), draw: same({ 0: 10 }) },
]

const volume: readonly Case[] = [
  {
    name: 'M200 D1.75: 2.405282 mm³ are 1 mm',
    code: relative('M200 D1.75', 'G1 E2.405282'),
    draw: { all: { 0: 2.405282 / area(1.75) }, host: { 0: 2.405282 } },
    must: ['volumetric_ignored_by_host'],
  },
  {
    name: 'M200 D2.85',
    code: relative('M200 D2.85', 'G1 E6.379397'),
    draw: { all: { 0: 6.379397 / area(2.85) }, host: { 0: 6.379397 } },
  },
  { name: 'M200 D0', code: relative('M200 D1.75', 'M200 D0', 'G1 E2'), draw: same({ 0: 2 }) },
  {
    name: 'M200 D1.75 S0: two families do not read S',
    code: relative('M200 D1.75 S0', 'G1 E2'),
    draw: { all: { 0: 2 }, 'community-1': { 0: 2 / area(1.75) }, textfile: { 0: 2 / area(1.75) } },
  },
  {
    name: 'M200 D1.75 S1',
    code: relative('M200 D1.75 S1', 'G1 E2'),
    draw: { all: { 0: 2 / area(1.75) }, host: { 0: 2 } },
  },
  {
    name: 'M200 S1 alone takes the filament in use',
    code: relative('M200 S1', 'G1 E2'),
    options: { firmware: 'community', diameter_mm: 2.85 },
    draw: { community: { 0: 2 / area(2.85) } },
  },
  {
    name: 'M200 S1 alone says nothing to the older line',
    code: relative('M200 S1', 'G1 E2'),
    options: { firmware: 'community-1' },
    draw: { 'community-1': { 0: 2 } },
  },
  {
    name: 'bare D switches off',
    code: relative('M200 D1.75', 'G1 E2', 'M200 D', 'G1 E2'),
    options: { firmware: 'community' },
    draw: { community: { 0: 2 / area(1.75) + 2 } },
  },
  {
    name: 'S0 keeps the diameter for S1',
    code: relative('M200 D2.85 S0', 'G1 E2', 'M200 S1', 'G1 E2'),
    options: { firmware: 'community' },
    draw: { community: { 0: 2 + 2 / area(2.85) } },
  },
  {
    name: 'M200 T1 D2.85: the switch is one for all tools, the diameter is not',
    code: relative('M200 T1 D2.85', 'G1 E2', 'T1', 'G1 E2'),
    draw: {
      community: { 0: 2 / area(1.75), 1: 2 / area(2.85) },
      'community-1': { 0: 2 / area(1.75), 1: 2 / area(2.85) },
      meta: { 0: 2 / area(2.85), 1: 2 / area(2.85) },
      host: { 0: 2, 1: 2 },
      textfile: { 0: 2 / area(2.85), 1: 2 / area(1.75) },
    },
  },
  {
    name: 'M200 D2.85:1.75',
    code: relative('M200 D2.85:1.75', 'G1 E2', 'T1', 'G1 E2'),
    draw: {
      all: { 0: 2 / area(2.85), 1: 2 / area(1.75) },
      host: { 0: 2, 1: 2 },
    },
  },
  {
    name: 'M200 P1 D2.85',
    code: relative('M200 P1 D2.85', 'G1 E2', 'T1', 'G1 E2'),
    options: { firmware: 'textfile' },
    draw: { textfile: { 0: 2 / area(1.75), 1: 2 / area(2.85) } },
  },
  { name: 'M200 D-1 is not a diameter', code: relative('M200 D-1', 'G1 E2'), draw: same({ 0: 2 }) },
  {
    name: 'told that E is mm³',
    code: relative('M200 D0', 'G1 E2'),
    options: { eUnit: 'mm3', diameter_mm: 2.85 },
    draw: same({ 0: 2 / area(2.85) }),
  },
  {
    name: 'told that E is mm',
    code: relative('M200 D1.75', 'G1 E2'),
    options: { eUnit: 'mm' },
    draw: same({ 0: 2 }),
  },
  {
    name: 'told that E is relative, whatever the file says',
    code: program('M82', 'G90', 'G1 E2', 'G1 E3'),
    options: { eMode: 'relative' },
    draw: same({ 0: 5 }),
  },
  {
    name: 'told that E is absolute',
    code: program('M83', 'G1 E2', 'G91', 'G1 E3'),
    options: { eMode: 'absolute' },
    draw: same({ 0: 3 }),
  },
  {
    name: 'mm³ on absolute E',
    code: program('M200 D1.75', 'G1 E2', 'G92 E0', 'G1 E3', 'G1 E1'),
    draw: {
      all: { 0: [3 / area(1.75), 5 / area(1.75)] },
      host: { 0: [3, 5] },
    },
  },
  {
    name: 'flow and volume',
    code: relative('M200 D1.75', 'M221 S50', 'G1 E2'),
    draw: { all: { 0: 1 / area(1.75) }, host: { 0: 1 } },
  },
]

const retraction: readonly Case[] = [
  {
    name: 'G10 and G11 of unknown length net out',
    code: relative('G1 E10', 'G10', 'G11', 'G1 E1'),
    draw: same({ 0: 11 }),
  },
  {
    name: 'M207 and M208',
    // 10 − 2 + 2.5.
    code: relative('M207 S2', 'M208 S0.5', 'G1 E10', 'G10', 'G11'),
    draw: { all: { 0: 10.5 }, meta: { 0: 10 }, host: { 0: 10 } },
  },
  {
    name: 'M207 with R',
    code: relative('M207 S2 R0.5', 'G1 E10', 'G10', 'G11'),
    draw: { all: { 0: 10 }, meta: { 0: 10.5 } },
  },
  {
    name: 'SET_RETRACTION, and the flow factor on it',
    // host: 5 − 1 + 1.25.
    code: relative(
      'SET_RETRACTION RETRACT_LENGTH=2 UNRETRACT_EXTRA_LENGTH=0.5',
      'M221 S50',
      'G1 E10',
      'G10',
      'G11',
    ),
    draw: { all: { 0: 5 }, host: { 0: 5.25 } },
    mustNot: ['macro_calls'],
  },
  {
    name: 'flow does not touch M207 elsewhere',
    code: relative('M207 S2', 'M221 S50', 'G1 E10', 'G10'),
    draw: { all: { 0: [3, 5] }, host: { 0: 5 } },
  },
  {
    name: 'ends retracted',
    code: relative('M207 S2', 'G1 E10', 'G10'),
    draw: { all: { 0: [8, 10] }, host: { 0: 10 } },
  },
  {
    name: 'G10 twice is once',
    code: relative('M207 S2', 'G1 E10', 'G10', 'G10', 'G11', 'G11', 'G11'),
    draw: same({ 0: 10 }),
  },
  {
    name: 'G11 with nothing retracted',
    code: relative('M207 S2', 'M208 S1', 'G1 E10', 'G11'),
    draw: same({ 0: 10 }),
  },
  {
    name: 'G10 P0 S210 is a setting',
    code: relative('M207 S2', 'G1 E10', 'G10 P0 S210 R150'),
    draw: same({ 0: 10 }),
  },
  ...['P0', 'R180', 'L2', 'X5', 'Y1', 'Z0.5', 'L20 P1 X0'].map((tail) => ({
    name: `G10 ${tail} is no retraction`,
    code: relative('M207 S2', 'G1 E10', `G10 ${tail}`),
    draw: same({ 0: 10 }),
  })),
  {
    name: 'G10 S1 is a setting on one family',
    code: relative('M207 S2', 'G1 E10', 'G10 S1'),
    draw: { all: { 0: [8, 10] }, meta: { 0: 10 }, host: { 0: 10 } },
  },
  {
    name: 'each tool is retracted for itself',
    // T0 stays 2 back; T1 has nothing to take back.
    code: relative('M207 S2', 'G1 E10', 'G10', 'T1', 'G11', 'G1 E5', 'T0', 'G1 E1'),
    draw: { all: { 0: [9, 10], 1: 5 }, host: { 0: 11, 1: 5 } },
  },
  {
    name: 'three hundred pairs with 0.05 extra',
    code: relative('M207 S1', 'M208 S0.05', ...Array.from({ length: 300 }, () => 'G10\nG11')),
    draw: { community: { 0: 15 }, 'community-1': { 0: 15 }, meta: {}, textfile: { 0: 15 } },
  },
  {
    name: 'M209 S1',
    code: relative('M209 S1', 'G1 E10'),
    draw: same({ 0: 10 }),
    must: ['auto_retraction'],
  },
  {
    name: 'G10 does not move logical E',
    code: program('M207 S2', 'G1 E10', 'G10', 'G92 E0', 'G11', 'G1 E1'),
    draw: same({ 0: 11 }),
  },
]

export const feedCases: readonly Case[] = [
  ...eMode,
  ...g92Cases,
  ...signs,
  ...words,
  ...lines,
  ...units,
  ...tools,
  ...flow,
  ...volume,
  ...retraction,
]
