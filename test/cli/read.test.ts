import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { bigPrint } from '../../demo/big-print.ts'
import { demoPrints } from '../../demo/prints/index.ts'
import { type ReadPrintJson, readJson, readPrintJson } from '../../src/contract/index.ts'
import { zipOf } from '../zip-of.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const folder = folderOfPrints()
const knob = readFileSync(join(folder, 'knob.gcode'))
writeFileSync(join(folder, 'knob.gcode.gz'), gzipSync(knob))
writeFileSync(
  join(folder, 'two.zip'),
  zipOf([
    { name: 'plates/knob.gcode', bytes: knob },
    { name: 'pin.gcode', bytes: readFileSync(join(folder, 'hinge-pin.gcode')), kind: 'described' },
  ]),
)
writeFileSync(
  join(folder, 'asks.gcode'),
  'M83\nG90\nG1 X10 Y0 Z0.2 E1\nG1 X20 Y0 E1\nG1 X30 Y0 E1.5\n',
)

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')

const readOne = (...words: readonly string[]): ReadPrintJson => {
  const { exit, out, err } = runCli(['read', ...words, '--json'], { cwd: folder })
  expect([exit, err]).toEqual([0, ''])
  return readPrintJson.parse(JSON.parse(out))
}

const codesOf = (...words: readonly string[]): readonly string[] =>
  readOne(...words).findings.map(({ code }) => code)

describe.each(demoPrints)('$name', ({ fileName, truth, write }) => {
  test('JSON has its truth', () => {
    const print = readOne(fileName)
    const bytes = new TextEncoder().encode(write())
    expect(print).toMatchObject({
      file: fileName,
      bytes: bytes.length,
      sha256: sha256(bytes),
      container: 'plain',
      member: null,
      code_bytes: bytes.length,
    })
    expect(print.layers.count).toBe(truth.layers)
    expect(print.layers.top_mm).toBeCloseTo(truth.height_mm, 6)
    expect(print.tools.map(({ tool }) => tool)).toEqual(truth.tools.map(({ tool }) => tool))
    for (const [place, { peak_mm, net_mm, startMacro_mm }] of truth.tools.entries()) {
      // The file has four or five decimals in each of its words.
      expect(print.tools[place]?.peak_mm).toBeCloseTo(peak_mm, 0)
      expect(print.tools[place]?.net_mm).toBeCloseTo(net_mm, 0)
      expect(print.tools[place]?.start_macro_mm).toBeCloseTo(startMacro_mm, 2)
    }
    expect(print.tools).toEqual(print.families[0]?.tools)
  })
})

test('standard input', () => {
  const { exit, out } = runCli(['read', '-', '--json'], { input: knob })
  expect(exit).toBe(0)
  expect(JSON.parse(out)).toEqual({ ...readOne('knob.gcode'), file: '-' })
})

test('gzip, with the figures of both', () => {
  const packed = gzipSync(knob)
  expect(readOne('knob.gcode.gz')).toEqual({
    ...readOne('knob.gcode'),
    file: 'knob.gcode.gz',
    container: 'gzip',
    bytes: packed.length,
    sha256: sha256(packed),
  })
})

test('several prints are a list: members and files', () => {
  const { out } = runCli(['read', 'two.zip', 'vase.gcode', '--json'], { cwd: folder })
  const all = readJson.parse(JSON.parse(out))
  if (!('prints' in all)) throw new Error('no list')
  expect(all.prints.map(({ file, member }) => [file, member])).toEqual([
    ['two.zip', 'plates/knob.gcode'],
    ['two.zip', 'pin.gcode'],
    ['vase.gcode', null],
  ])
  expect(all.prints[0]?.tools).toEqual(readOne('knob.gcode').tools)
})

test('grams, when the material is told', () => {
  const [tool] = readOne('tackle-box.gcode', '--density', '1.24').tools
  const { peak_mm = 0 } = tool ?? {}
  expect(tool?.volume_mm3).toBeCloseTo((Math.PI / 4) * 1.75 ** 2 * peak_mm, 6)
  expect(tool?.nominal_mass_g?.value).toBeCloseTo(0.00124 * (tool?.volume_mm3 ?? 0), 9)
  expect(tool?.nominal_mass_g?.u).toBeGreaterThan(1)
  expect(readOne('tackle-box.gcode').tools[0]?.nominal_mass_g).toBeNull()
})

test('a file that asks is told what it draws under each answer, and is silent once answered', () => {
  const asked = readOne('asks.gcode')
  expect(asked.families.length).toBeGreaterThan(1)
  expect(asked.findings.map(({ code, severity }) => [code, severity])).toContainEqual([
    'families_differ',
    'ask',
  ])
  const answered = readOne('asks.gcode', '--firmware', 'host')
  expect(answered.families).toHaveLength(1)
  expect(answered.tools[0]?.peak_mm).toBeCloseTo(3.5, 9)
  const { out } = runCli(['read', 'asks.gcode'], { cwd: folder })
  expect(out.replaceAll(/\s+/g, ' ')).toContain('Answer --firmware with yours')
})

test('a file made for other filament than is in use is warned of, once that is said', () => {
  expect(codesOf('knob.gcode', '--made-for', '2.85mm')).toContain('made_for_other_diameter')
  expect(codesOf('knob.gcode', '--made-for', '2.85mm', '--diameter', '2.85mm')).toEqual([])
  expect(codesOf('knob.gcode', '--made-for', '2.85mm', '--e-unit', 'mm3')).not.toContain(
    'made_for_other_diameter',
  )
  const { out } = runCli(['read', 'knob.gcode', '--made-for', '2.85mm'], { cwd: folder })
  expect(out).toContain('38 % of the plastic')
})

test('a large file is hashed in its own thread, and right', () => {
  const path = join(folder, 'big.gcode')
  const parts: Uint8Array[] = []
  const chunks = bigPrint(18_000_000, { eMode: 'relative' })
  let next = chunks.next()
  while (next.done !== true) {
    parts.push(next.value)
    next = chunks.next()
  }
  const bytes = Buffer.concat(parts)
  writeFileSync(path, bytes)
  const print = readOne('big.gcode')
  expect(print.sha256).toBe(sha256(bytes))
  expect(print.layers.count).toBe(next.value.layers)
  expect(print.tools[0]?.peak_mm).toBeCloseTo(next.value.peak_mm, 5)
})

test('in a pipe there is neither colour nor progress', () => {
  const { out, err } = runCli(['read', 'big.gcode'], {
    cwd: folder,
    env: { COLORTERM: 'truecolor' },
  })
  expect(err).toBe('')
  expect(out).not.toContain('\u001B')
})

test('what a file says can not move the cursor', () => {
  const path = join(folder, 'sly\u001B[2J.gcode')
  writeFileSync(path, 'G1 X10 Z0.2 E1\nM600 \u001B[31mred\nG1 X20 E2\n')
  const { out } = runCli(['read', path], { cwd: folder })
  expect(out).not.toContain('\u001B')
  expect(out).toContain('reel change')
})

test.each(demoPrints)('no line of the sheet is wider than a terminal: $name', ({ fileName }) => {
  const { out } = runCli(['read', fileName, '--material', 'PETG'], { cwd: folder })
  for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
})
