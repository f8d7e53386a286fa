import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { errorJson } from '../../src/contract/index.ts'
import { zipOf } from '../zip-of.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const folder = folderOfPrints()
const code = 'G28\nG1 X10 Y0 Z0.2 E1\nG1 X20 Y0 E2.5\n'
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)
const magic = (...bytes: number[]): Uint8Array =>
  Uint8Array.from([...bytes, ...Array.from({ length: 100 }, (_, i) => (i * 37) & 255)])
const utf16 = (text: string, mark: readonly number[], high: 0 | 1): Uint8Array =>
  Uint8Array.from([
    ...mark,
    ...Array.from(text, (letter) =>
      high === 1 ? [letter.charCodeAt(0), 0] : [0, letter.charCodeAt(0)],
    ).flat(),
  ])
const bomb = new Uint8Array(4_000_000).fill(10)
const zipped = (name = 'a.gcode', bytes: Uint8Array = bytesOf(code)): Uint8Array =>
  zipOf([{ name, bytes }])
const damaged = (bytes: Uint8Array, at: number): Uint8Array => {
  const copy = Uint8Array.from(bytes)
  copy[at] = copy[at]! ^ 255
  return copy
}

/** Files with what is in them, and the code they are refused with. */
const files: readonly (readonly [name: string, code: string, bytes: Uint8Array | string])[] = [
  ['empty', 'empty', ''],
  ['binary', 'not_machine_code', magic(0, 1, 2, 3, 0, 0, 0, 1)],
  ['png', 'not_machine_code', magic(0x89, 0x50, 0x4e, 0x47)],
  ['jpeg', 'not_machine_code', magic(0xff, 0xd8, 0xff, 0xe0)],
  ['gif', 'not_machine_code', 'GIF89a and so on'],
  ['pdf', 'not_machine_code', '%PDF-1.7\n1 0 obj'],
  ['program', 'not_machine_code', magic(0x7f, 0x45, 0x4c, 0x46)],
  ['bzip2', 'not_machine_code', magic(0x42, 0x5a, 0x68, 0x39)],
  ['xz', 'not_machine_code', magic(0xfd, 0x37, 0x7a, 0x58, 0x5a, 0)],
  ['zstd', 'not_machine_code', magic(0x28, 0xb5, 0x2f, 0xfd)],
  ['7z', 'not_machine_code', magic(0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c)],
  ['rar', 'not_machine_code', magic(0x52, 0x61, 0x72, 0x21, 0x1a, 7)],
  ['xml', 'not_machine_code', '<?xml version="1.0"?><model/>'],
  ['web page', 'not_machine_code', '<!doctype html><title>404</title>'],
  ['model', 'not_machine_code', 'solid part\n  facet normal 0 0 1\n'],
  ['json', 'not_machine_code', '{"error": "not found"}'],
  ['utf16 le', 'utf16', utf16(code, [0xff, 0xfe], 1)],
  ['utf16 be', 'utf16', utf16(code, [0xfe, 0xff], 0)],
  ['utf16 unmarked', 'utf16', utf16(code, [], 1)],
  ['prose', 'no_machine_code', 'Dear Mags,\nplease print the knob again.\n'],
  ['blank', 'no_machine_code', '\n\n \n'],
  ['endless loop', 'endless_loop', 'G1 X1 E1\nM808 L0\nG1 X2 E1\nM808\n'],
  ['open loop', 'open_loop', 'G1 X1 E1\nM808 L5\nG1 X2 E1\n'],
  ['lonely e', 'e_without_number', 'G1 X1 E1\nG1 X2 E\n'],
  ['braces', 'expression', 'G1 X1 E1\nG1 X2 E{e * 2}\n'],
  ['endless number', 'number_too_large', 'G1 X1 E1e999\nG1 X1 E99999999999999999\n'],
  ['endless line', 'line_too_long', `G1 X1 E1\nG1 ${'X1 '.repeat(30_000)}\n`],
  ['gzip truncated', 'container_truncated', gzipSync(code).subarray(0, 30)],
  ['gzip head only', 'container_truncated', gzipSync(code).subarray(0, 7)],
  ['gzip damaged', 'container_corrupt', damaged(gzipSync(code), 25)],
  ['gzip wrong sum', 'container_corrupt', damaged(gzipSync(code), gzipSync(code).length - 6)],
  ['gzip and rubbish', 'container_corrupt', Buffer.concat([gzipSync(code), bytesOf('rubbish')])],
  ['gzip bomb', 'container_bomb', gzipSync(bomb)],
  ['gzip in gzip', 'container_nested', gzipSync(gzipSync(code))],
  ['gzip of a picture', 'not_machine_code', gzipSync(magic(0x89, 0x50, 0x4e, 0x47))],
  ['zip truncated', 'container_truncated', zipped().subarray(0, 60)],
  ['zip without its end', 'container_truncated', zipped().subarray(0, -10)],
  ['zip damaged', 'container_corrupt', damaged(zipped(), 45)],
  ['zip bomb', 'container_bomb', zipped('a.gcode', bomb)],
  [
    'zip locked',
    'container_encrypted',
    zipOf([{ name: 'a.gcode', bytes: bytesOf(code), flags: 1 }]),
  ],
  [
    'zip packed oddly',
    'container_unsupported',
    zipOf([{ name: 'a.g', bytes: bytesOf(code), method: 14 }]),
  ],
  [
    'zip in parts',
    'container_multi_part',
    zipOf([{ name: 'a.g', bytes: bytesOf(code) }], { disk: 2 }),
  ],
  ['zip in zip', 'container_nested', zipped('a.gcode', zipped())],
  ['zip without print', 'no_print_in_zip', zipped('notes.txt')],
  ['zip of nothing', 'no_print_in_zip', zipOf([])],
  [
    'zip of very many',
    'container_too_many_members',
    zipOf(Array.from({ length: 1001 }, (_, i) => ({ name: `${i}/`, bytes: new Uint8Array(0) }))),
  ],
]

for (const [name, , bytes] of files) writeFileSync(join(folder, name), bytes)
mkdirSync(join(folder, 'folder'))
symlinkSync('nowhere', join(folder, 'dangling'))
symlinkSync('circle', join(folder, 'circle'))
writeFileSync(join(folder, 'closed'), code, { mode: 0 })

/** What the system does not let one read. */
const unread: readonly (readonly [name: string, code: string])[] = [
  ['no such file', 'missing_file'],
  ['dangling', 'missing_file'],
  ['circle', 'missing_file'],
  ['knob.gcode/inside', 'missing_file'],
  ['x'.repeat(300), 'missing_file'],
  ['/dev/null', 'empty'],
]

const refusals = [...files.map(([name, refusal]) => [name, refusal] as const), ...unread]

test('there are plenty', () => {
  expect(refusals.length).toBeGreaterThan(50)
})

describe.each(refusals)('%s', (name, refusal) => {
  const words = ['check', name, '--gross', '422g', '--json']
  test(`is refused: ${refusal}`, () => {
    const { exit, out, err } = runCli(words, { cwd: folder })
    expect(exit).toBe(3)
    const { error } = errorJson.parse(JSON.parse(out))
    expect(error.code).toBe(refusal)
    expect(error.file).toBe(name)
    // One message, no trace of the program's own.
    expect(error.message).toMatch(/[.]$/)
    expect(err).not.toMatch(/\n\s+at /)
    expect(err.replaceAll(/\s+/g, ' ')).toContain(error.message.replaceAll(/\s+/g, ' ').trim())
  })
})

test.each(['read', 'check'])('%s without --json says nothing on standard output', (command) => {
  const { exit, out, err } = runCli([command, 'png'], { cwd: folder })
  expect([exit, out]).toEqual([3, ''])
  expect(err).toBe(
    'png: The file is a PNG picture. Export the print as plain machine code (text)\nand give that.\n',
  )
})

test.skipIf(process.getuid?.() === 0)('a closed file (not asked of root, who may read it)', () => {
  const { exit, err } = runCli(['read', 'closed'], { cwd: folder })
  expect(exit).toBe(3)
  expect(err).toContain('You may not read this file')
})

test('a broken file among others is told of, and the others are read', () => {
  const { exit, out } = runCli(['read', 'knob.gcode', 'png'], { cwd: folder })
  expect(exit).toBe(3)
  expect(out).toMatch(/knob\.gcode +4\.91 m/)
  expect(out).toContain('1 file could not be read')
  expect(out).toContain('png: The file is a PNG picture')
})

test('an empty folder is refused', () => {
  const { exit, out, err } = runCli(['read', 'folder'], { cwd: folder })
  expect(exit).toBe(3)
  expect(out + err).toMatch(/folder/)
})

test('broken standard input', () => {
  const { exit, err } = runCli(['read', '-'], { input: gzipSync(code).subarray(0, 30) })
  expect(exit).toBe(3)
  expect(err).toContain('cut short')
})
