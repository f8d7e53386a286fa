/**
 * Broken and hostile inputs. Each is either refused, with a code and where it can be told a line,
 * or has one right answer.
 */
import { type Case, program } from './case.ts'

export interface HostileCase extends Case {
  /** Nothing when the input must be read. */
  readonly refusal?: { readonly code: string; readonly line?: number }
  /** One reading takes seconds: read once, and not cut. */
  readonly slow?: boolean
}

/** One byte for each character. */
const latin1 = (text: string): Uint8Array => Uint8Array.from(text, (char) => char.charCodeAt(0))
const joined = (...parts: readonly Uint8Array[]): Uint8Array =>
  Uint8Array.from(parts.flatMap((part) => Array.from(part)))
const utf16 = (text: string, bigEndian: boolean): Uint8Array =>
  latin1(
    text
      .split('')
      .map((char) => (bigEndian ? `\0${char}` : `${char}\0`))
      .join(''),
  )

const relative = (...lines: readonly string[]): string => program('M83', ...lines)
const refused = (
  name: string,
  code: string | Uint8Array,
  refusal: string,
  line?: number,
): HostileCase => ({
  name,
  code,
  refusal: line === undefined ? { code: refusal } : { code: refusal, line },
})
/** Read, and tool 0 feeds this much under every family. */
const feeds = (name: string, code: string | Uint8Array, mm: number): HostileCase => ({
  name,
  code,
  draw: { all: { 0: mm } },
})

const print = relative('G1 X5 E1', 'G1 X6 E1')

const notText: readonly HostileCase[] = [
  refused('an empty file', '', 'empty'),
  refused('a byte-order mark and nothing else', '\ufeff', 'no_machine_code'),
  refused('blanks and line ends', ' \t\r\n\n  \r', 'no_machine_code'),
  refused('comments only', '; a\n;b\n', 'no_machine_code'),
  refused(
    'plain prose',
    'Dear Marit,\nthe E motor of printer 3 skips.\nBest, Tove\n',
    'no_machine_code',
  ),
  refused('a table', 'layer,height,length\n1,0.2,35\n2,0.4,36\n', 'no_machine_code'),
  refused(
    'bytes that are no text',
    Uint8Array.from({ length: 300 }, (_, at) => 128 + (at % 128)),
    'no_machine_code',
  ),
  refused('NUL in a move', latin1(`${print}G1 X7 E\x005\n`), 'nul_byte', 4),
  refused('NUL in a comment', latin1(`${print}G1 X7 E5\n; a\0b\n`), 'nul_byte', 5),
  refused('NUL in a text', latin1('G28\nM117 a\0b\n'), 'nul_byte', 2),
  refused(
    'padded with NUL behind much text',
    latin1(`${print.repeat(1000)}${'\0'.repeat(600)}`),
    'nul_byte',
    3001,
  ),
  refused('NUL as the first byte', latin1(`\0${print}`), 'nul_byte', 1),
  refused(
    'UTF-16, little end first, with its mark',
    joined(latin1('\xff\xfe'), utf16(print, false)),
    'utf16',
  ),
  refused(
    'UTF-16, big end first, with its mark',
    joined(latin1('\xfe\xff'), utf16(print, true)),
    'utf16',
  ),
  refused('UTF-16, little end first, no mark', utf16(print, false), 'utf16'),
  refused('UTF-16, big end first, no mark', utf16(print, true), 'utf16'),
  refused(
    'UTF-16, CRLF, no mark',
    utf16(print.replaceAll('\n', '\r\n').repeat(30), false),
    'utf16',
  ),
]

const foreign: readonly HostileCase[] = [
  refused('bzip2', latin1('BZh91AY&SY\x8a\x1c\x00\x00\x01'), 'not_machine_code'),
  refused('xz', latin1('\xfd7zXZ\x00\x00\x04\xe6\xd6\xb4F'), 'not_machine_code'),
  refused('zstd', latin1('\x28\xb5\x2f\xfd\x24\x05\x29\x00\x00'), 'not_machine_code'),
  refused('7z', latin1('7z\xbc\xaf\x27\x1c\x00\x04\x5b\x38'), 'not_machine_code'),
  refused('rar', latin1('Rar!\x1a\x07\x01\x00\x33\x92'), 'not_machine_code'),
  refused('PDF', latin1('%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n'), 'not_machine_code'),
  refused('PNG', latin1('\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR'), 'not_machine_code'),
  refused('JPEG', latin1('\xff\xd8\xff\xe0\x00\x10JFIF\x00'), 'not_machine_code'),
  refused('ELF', latin1('\x7fELF\x02\x01\x01\x00\x00\x00'), 'not_machine_code'),
  refused(
    'STL as text',
    'solid cleat\n facet normal 0 0 1\n  outer loop\n   vertex 0 0 0\n   vertex 1 0 0\n',
    'not_machine_code',
  ),
  refused(
    'STL in bytes',
    joined(latin1('cleat'.padEnd(80, '\0')), Uint8Array.of(2, 0, 0, 0), new Uint8Array(100)),
    'not_machine_code',
  ),
  refused(
    'XML',
    '<?xml version="1.0"?>\n<model unit="millimeter">\nG1 X1 E1\n',
    'not_machine_code',
  ),
  refused(
    'XML behind a byte-order mark',
    '\ufeff<?xml version="1.0"?>\n<a/>\n',
    'not_machine_code',
  ),
  refused(
    'a web page',
    '<!doctype html>\n<title>Not found</title>\nG1 X1 E1\n',
    'not_machine_code',
  ),
  refused(
    'an archive of plain files',
    latin1(`cleat.gcode${'\0'.repeat(89)}0000644\0`.padEnd(512, '\0')),
    'not_machine_code',
  ),
  feeds('prose that begins with solid', `solid steel plate\n${print}`, 2),
  feeds('a % line first', `%\n${print}%\n`, 2),
]

const long = 'x'.repeat(100_000)
const budgets: readonly HostileCase[] = [
  refused(
    'a move longer than the budget',
    relative(`G1 X5${' '.repeat(65_536)}E1`),
    'line_too_long',
    2,
  ),
  refused(
    'the longest line and one more',
    relative('G1 X5 E1', `G1 X6 E1${' '.repeat(65_529)}`),
    'line_too_long',
    3,
  ),
  feeds('the longest line', relative('G1 X5 E1', `G1 X6 E1${' '.repeat(65_528)}`), 2),
  feeds('the longest line with CRLF', `M83\r\nG1 X6 E1${' '.repeat(65_528)}\r\n`, 1),
  feeds('a long comment', relative(`;${long}`, 'G1 X5 E1'), 1),
  feeds('a long comment and no end', relative('G1 X5 E1', `;${long}`), 1),
  feeds('a long comment behind a move', relative(`G1 X5 E1 ;${long} E5`, 'G1 X6 E1'), 2),
  feeds('a long display text', relative(`M117 ${long} E5`, 'G1 X5 E1'), 1),
  feeds('long prose', relative(`This is ${long} E5`, 'G1 X5 E1'), 1),
  feeds('a long list of values', relative(`DEFINE_OUTLINE POINTS=${long}`, 'G1 X5 E1'), 1),
  feeds('deep indentation', relative(`${' \t'.repeat(500)}G1 X5 E1`), 1),
  feeds('a deep comment', relative(`${' '.repeat(70_000)}; G1 E9`, 'G1 X5 E1'), 1),
  feeds('twenty thousand bytes of a line', relative(`G1 X5 E1 F${'0'.repeat(20_000)}1`), 1),
  {
    name: 'a thousand moves on a line',
    code: relative('G1 X1 E1 '.repeat(1000)),
    draw: { all: { 0: 1 }, meta: { 0: 1000 }, textfile: { 0: 1000 } },
    must: ['two_commands', 'duplicate_word'],
  },
  feeds('twenty thousand findings', relative('g1 x1 e1.1.1\n'.repeat(20_000)), 22_000),
  {
    name: 'a hundred thousand tool changes',
    code: relative('T1\nG1 E1\nT0\nG1 E1\n'.repeat(50_000)),
    draw: { all: { 0: 50_000, 1: 50_000 } },
  },
  feeds('twenty thousand stops', relative('M0\n'.repeat(20_000), 'G1 E1'), 1),
  {
    name: 'thirty-two tools',
    code: relative(...Array.from({ length: 32 }, (_, tool) => `T${tool}\nG1 E1`)),
    draw: { all: Object.fromEntries(Array.from({ length: 32 }, (_, tool) => [tool, 1])) },
  },
  refused(
    'thirty-three tools',
    relative(...Array.from({ length: 33 }, (_, tool) => `T${tool}\nG1 E1`)),
    'too_many_tools',
  ),
  refused(
    'forty drives in a list',
    relative(`G1 X5 E${Array(40).fill('1').join(':')}`),
    'too_many_tools',
    2,
  ),
  feeds(
    'a hundred tools that feed nothing',
    relative(...Array.from({ length: 100 }, (_, tool) => `T${tool}`), 'T0', 'G1 E1'),
    1,
  ),
  {
    ...refused(
      'more layers than the budget',
      program('G91', 'M83', 'M808 L200100', 'G1 X1 Z.3', 'G1 X1 E.01', 'M808'),
      'too_many_layers',
    ),
    options: { firmware: 'community' },
    slow: true,
  },
]

const loops: readonly HostileCase[] = [
  ...['M808 L0', 'M808 L', 'M808 L-3', 'M808 L0.9', 'M808 Lx'].map((line) =>
    refused(`endless: ${line}`, relative('G1 E1', line, 'G1 E1', 'M808'), 'endless_loop', 3),
  ),
  ...['', ' COUNT=0', ' COUNT=-1', ' COUNT=', ' COUNT=all', ' NUMBER=3'].map((tail) =>
    refused(
      `endless: SDCARD_LOOP_BEGIN${tail}`,
      relative('G1 E1', `SDCARD_LOOP_BEGIN${tail}`, 'G1 E1', 'SDCARD_LOOP_END'),
      'endless_loop',
      3,
    ),
  ),
  refused('a loop never closed', relative('M808 L2', 'G1 E1'), 'open_loop', 2),
  refused(
    'an outer loop never closed',
    relative('M808 L2', 'M808 L2', 'G1 E1', 'M808'),
    'open_loop',
    2,
  ),
  refused('an inner loop never closed', relative('M808 L1', 'M808 L2', 'G1 E1'), 'open_loop', 3),
  refused(
    'nine loops deep',
    relative(...Array<string>(9).fill('M808 L1'), 'G1 E1'),
    'loops_too_deep',
    10,
  ),
  refused('ten thousand loops open', relative('M808 L2\n'.repeat(10_000)), 'loops_too_deep', 10),
  feeds('ten thousand loops closed', relative('G1 E1', 'M808\n'.repeat(10_000)), 1),
  refused(
    'a body of nine million bytes',
    relative('M808 L2', ...Array<string>(90).fill(`;${long}`), 'M808', 'G1 E1'),
    'loop_too_long',
  ),
  {
    ...refused(
      'loops of a hundred, five deep',
      relative(...Array<string>(5).fill('M808 L100'), 'G1 E1', ...Array<string>(5).fill('M808')),
      'too_many_lines',
    ),
    slow: true,
  },
  {
    ...refused(
      'a thousand million times',
      relative('M808 L1000000000', 'G1 E1', 'M808'),
      'too_many_lines',
    ),
    slow: true,
  },
  {
    ...refused(
      'a number of times with 400 digits',
      relative(`M808 L${'9'.repeat(400)}`, 'G1 E1', 'M808'),
      'too_many_lines',
    ),
    slow: true,
  },
  refused(
    'an error in a loop is in its first round',
    relative('M808 L3', 'G1 E1', 'G1 X1 E', 'M808'),
    'e_without_number',
    4,
  ),
]

const numbers: readonly HostileCase[] = [
  ...[
    'E',
    'E ',
    'E-',
    'E+',
    'E.',
    'E-.',
    'E--5',
    'E+-5',
    'E- 5',
    'E=5',
    'E,5',
    'E*7',
    'E;5',
    'ENaN',
    'EInfinity',
    'E:5',
    'E"5"',
    'E$5',
    'E(5)',
  ].map((word) =>
    refused(
      `E without a number: ${word}`,
      relative('G1 X5 E1', `G1 X6 ${word}`),
      'e_without_number',
      3,
    ),
  ),
  refused(
    'a point alone behind X and Y',
    relative('G1 X5 Y5 E1', 'G1 X6 Y5 E.'),
    'e_without_number',
    3,
  ),
  refused(
    'a point alone that would feed up to 0',
    'M82\nG92 E-5\nG1 X5 Y5 E-4\nG1 X6 Y5 E.\n',
    'e_without_number',
    4,
  ),
  refused('E without a number on G0', relative('G0 X5 E'), 'e_without_number', 2),
  refused('E without a number on an arc', relative('G2 X5 I1 E'), 'e_without_number', 2),
  refused('E without a number before X', relative('G1 E X5'), 'e_without_number', 2),
  {
    name: 'a second E without a number: the E that counts must have one',
    code: relative('G1 X5 E1e'),
    options: { firmware: 'meta' },
    draw: { meta: { 0: 1 } },
  },
  refused('a second E without a number', relative('G1 X5 E1e'), 'e_without_number', 2),
  feeds('the word feed in a bracket', relative('G1 X5 E1 (feed)'), 1),
  feeds(
    'E without a number where it feeds nothing',
    relative('G28 E', 'G4 E', 'M117 E', 'M104 E', 'G1 X5 E1'),
    1,
  ),
  refused('E in braces', relative('G1 X5 E1', 'G1 X6 E{var.feed}'), 'expression', 3),
  refused('E in braces behind a blank', relative('G1 X6 E {1 + 2}'), 'expression', 2),
  refused('G92 E in braces', relative('G92 E{0}', 'G1 E1'), 'expression', 2),
  feeds('X in braces', relative('G1 X{global.feed} E1', 'G1 Y{move.axes[1].max + 5} E1'), 2),
  feeds('E0x10 is E0 and X10', relative('G1 E0x10', 'G1 X5 E1'), 1),
  feeds('just within the budget', relative('G1 E999999999'), 999_999_999),
  refused('E1000000000', relative('G1 E1', 'G1 E1000000000'), 'number_too_large', 3),
  refused('E-1000000000', relative('G1 E-1000000000'), 'number_too_large', 2),
  refused('G92 E1000000000', relative('G92 E1000000000'), 'number_too_large', 2),
  refused('E with 400 digits', relative(`G1 E${'9'.repeat(400)}`), 'number_too_large', 2),
  feeds('E with 400 zeros in front', relative(`G1 E${'0'.repeat(400)}5`), 5),
  feeds('E with 400 decimals', relative(`G1 E1.${'3'.repeat(400)}`), 4 / 3),
  {
    name: 'E with 400 zeros behind the point',
    code: relative(`G1 E.${'0'.repeat(400)}5`, 'G1 E1'),
    draw: { all: { 0: 1 } },
  },
  // Infinity where exponents are read; a file must be taken by all families or by none.
  refused('E1e400', relative('G1 E1e400'), 'number_too_large', 2),
  {
    name: 'E1e400 where exponents are not read: the last E counts',
    code: relative('G1 E1e400'),
    options: { firmware: 'community' },
    draw: { community: { 0: 400 } },
  },
  refused('G92 E1e308', program('G92 E1e308', 'G1 E1', 'G1 E2'), 'number_too_large', 1),
  {
    name: 'an exponent of X without bounds',
    code: relative('G1 X1E99999 E1'),
    draw: { all: { 0: 1 }, textfile: { 0: 99_999 } },
  },
  feeds('X with 400 digits', relative(`G1 X${'9'.repeat(400)} E1`, 'G1 X0 E1'), 2),
  feeds('Z with 400 digits', relative(`G1 Z${'9'.repeat(400)}`, 'G1 X5 E1', 'G1 X0 E1'), 2),
  {
    name: 'M221 S1e9',
    code: relative('M221 S1e9', 'G1 E10'),
    draw: { all: { 0: 0.1 }, meta: { 0: 20 } },
  },
  {
    name: 'M221 S1000000000',
    code: relative('M221 S1000000000', 'G1 E10'),
    draw: { all: { 0: 1e8 }, meta: { 0: 20 } },
  },
  feeds('M221 with 400 digits', relative(`M221 S${'9'.repeat(400)}`, 'G1 E10'), 10),
  feeds('M221 S-1e9', relative('M221 S-1', 'G1 E10'), 10),
  feeds('a diameter that is as good as none', relative(`M200 D0.${'0'.repeat(400)}1`, 'G1 E1'), 1),
  refused(
    'a diameter that makes kilometres of nothing',
    relative('M200 D0.00001', 'G1 E100'),
    'number_too_large',
    3,
  ),
  refused(
    'a retraction of a thousand million metres',
    relative('M207 S1000000000000', 'G10'),
    'number_too_large',
    3,
  ),
  {
    name: 'T99999999999999999999',
    code: relative('T1', 'T99999999999999999999', 'G1 E1'),
    draw: { all: { 1: 1 } },
    must: ['tool_macro'],
  },
  {
    name: 'T4294967297 is not T1',
    code: relative('T4294967297', 'G1 E1'),
    draw: { all: { 0: 1 } },
  },
  { name: 'T-99999', code: relative('T1', 'T-99999', 'G1 E1'), draw: { all: { 1: 1 } } },
  feeds('G4294967297 is not G1', relative('G4294967297 E9', 'G1 E1'), 1),
  feeds('G257 is not G1', relative('G257 E9', 'M338', 'G1 E1'), 1),
  feeds('G0000000001', relative('G0000000001 X5 E1'), 1),
  feeds(
    'a command with a sign is text',
    relative('G-1 X5 E9', 'G+1 X5 E9', 'M-82', 'M+82', 'G1 X5 E1'),
    1,
  ),
]

const dirt: readonly HostileCase[] = [
  feeds('a star alone', relative('*', '*;', ' * ', 'N5 *7', 'G1 X5 E1'), 1),
  feeds('a semicolon at once', `;\n;;\n${relative('G1 X5 E1')}`, 1),
  feeds(
    'letters alone',
    relative('G', 'M', 'T', 'N', 'E', 'G E5', 'Gx', 'N5', 'G1', 'G1 X5 E1'),
    1,
  ),
  feeds('a form feed between words', relative('G1\fX5\fE1', 'G1\vX6\vE1'), 2),
  feeds('a form feed before a command', relative('\fG1 X5 E9', 'G1 X5 E1'), 1),
  feeds(
    'bytes that are no UTF-8 in a comment',
    latin1('M83\n;\xff\xfe\xc3\x28\x80\xf0\nG1 X5 E1;\xe9\n'),
    1,
  ),
  feeds('bytes that are no UTF-8 in a text', latin1('M83\nM117 \xff\xc0\nG1 X5 E1\n'), 1),
  feeds('a hard blank between words', latin1('M83\nG1\xa0X5\xa0E1\n'), 1),
  feeds(
    'line separators of other scripts end no line',
    'M83\nG1 X5 E1 ;\u2028G1 E5\u0085G1 E5\n',
    1,
  ),
  feeds('letters of other scripts', 'M83\nG1 X5 E1 ; \u0415\u0445\nG1 X6 \uff25\uff15\n', 1),
  feeds(
    'every byte in a comment',
    joined(
      latin1('M83\nG1 X5 E1\n;'),
      Uint8Array.from({ length: 255 }, (_, at) => at + 1),
      latin1('\nG1 X6 E1\n'),
    ),
    2,
  ),
  feeds('a byte-order mark in the middle', 'M83\n\ufeffG1 X5 E9\nG1 X5 E1\n', 1),
  // The second mark hides M83, so E is absolute.
  feeds('two byte-order marks', '\ufeff\ufeffM83\nG1 X5 E5\nG1 X6 E7\n', 7),
  feeds('a quoted command', relative('"G1 X5 E9"', "'G1 X5 E9'", 'G1 X5 E1'), 1),
  feeds('a coloured text', relative('\u001b[31mG1 X5 E9', 'G1 X5 E1\u001b[0m'), 1),
  feeds(
    'names that mean something elsewhere',
    relative(
      '__proto__ E=5',
      'CONSTRUCTOR E=5',
      'SAVE_GCODE_STATE NAME=__proto__',
      'RESTORE_GCODE_STATE NAME=constructor',
      'RESTORE_GCODE_STATE NAME=__proto__',
      'ACTIVATE_EXTRUDER EXTRUDER=__proto__',
      'G1 X5 E1',
    ),
    1,
  ),
  feeds(
    'a path for a name',
    relative('../../../etc/passwd E5', 'M98 P"../../E5"', 'M23 /E5', 'G1 X5 E1'),
    1,
  ),
  feeds(
    'ten thousand states',
    relative(...Array.from({ length: 10_000 }, (_, at) => `SAVE_GCODE_STATE NAME=s${at}`), 'G1 E1'),
    1,
  ),
  feeds(
    'extruders without bounds',
    relative(
      'ACTIVATE_EXTRUDER EXTRUDER=extruder99999999999',
      'ACTIVATE_EXTRUDER EXTRUDER=extruder-1',
      'ACTIVATE_EXTRUDER EXTRUDER=',
      'ACTIVATE_EXTRUDER',
      'G1 E1',
    ),
    1,
  ),
  feeds('many CR', 'M83\r\r\r\rG1 X5 E1\r\r\n\r\n\n\rG1 X6 E1\r', 2),
  feeds('brackets in heaps', relative(`${'('.repeat(1000)}E5${')'.repeat(1000)}`, 'G1 X5 E1'), 1),
  feeds('a file that is cut within a move', 'M83\nG1 X5 E1\nG1 X6 E1.', 2),
  refused('a file that is cut before the number', 'M83\nG1 X5 E1\nG1 X6 E', 'e_without_number', 3),
]

export const hostileCases: readonly HostileCase[] = [
  ...notText,
  ...foreign,
  ...budgets,
  ...loops,
  ...numbers,
  ...dirt,
]
