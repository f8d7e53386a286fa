import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { pausedCopyJson } from '../../src/contract/index.ts'
import { zipOf } from '../zip-of.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const prints = folderOfPrints()
const box = join(prints, 'tackle-box.gcode')
const folder = mkdtempSync(join(tmpdir(), 'reelreckon-pause-'))
const to = (name: string): string => join(folder, name)

test('tells where it stops, what the machine does, and that the copy was read again', () => {
  const { out, err, exit } = runCli([
    'pause',
    box,
    '--after-layer',
    '237',
    '--firmware',
    'community',
    '--to',
    to('box.gcode'),
    '--note',
    'reel K7RMY',
  ])
  expect(err).toBe('')
  expect(exit).toBe(0)
  expect(out.replaceAll(/\s+/g, ' ')).toContain('by M600')
  expect(out).toContain('after layer 237   z 71.1 mm')
  expect(out).toContain('nozzle and bed are hot')
  const original = readFileSync(box, 'utf8').split('\n')
  const copy = readFileSync(to('box.gcode'), 'utf8').split('\n')
  const added = copy.findIndex((line, place) => line !== original[place])
  expect(copy[added]).toBe('M600 ; reelreckon: after layer 237, reel K7RMY')
  expect(copy.toSpliced(added, 1)).toEqual(original)
})

test('of a file whose E only a macro says is relative no copy is made before that is answered', () => {
  const layers = Array.from({ length: 40 }, (_, layer) =>
    [
      `G1 Z${(0.2 * (layer + 1)).toFixed(1)}`,
      'G1 X40 E1.3',
      'G1 Y40 E1.31',
      'G1 X0 E1.3',
      'G1 Y0 E1.31',
      'G1 E-0.8',
      'G1 E0.8',
    ].join('\n'),
  )
  writeFileSync(to('macro.gcode'), `BEGIN_BED\n${layers.join('\n')}\n`)
  const words = [
    'pause',
    to('macro.gcode'),
    '--after-layer',
    '9',
    '--firmware',
    'host',
    '--to',
    to('stop.gcode'),
  ]
  const asked = runCli(words)
  expect(asked.exit).toBe(10)
  expect(asked.err.replaceAll(/\s+/g, ' ')).toContain('Answer --e-mode relative')
  expect(existsSync(to('stop.gcode'))).toBe(false)
  expect(runCli([...words, '--e-mode', 'relative']).exit).toBe(0)
  // Behind the last bead of the layer, before it is drawn back.
  const copy = readFileSync(to('stop.gcode'), 'utf8').split('\n')
  const stop = copy.findIndex((line) => line.includes('after layer 9'))
  expect([copy[stop - 1], copy[stop + 1]]).toEqual(['G1 Y0 E1.31', 'G1 E-0.8'])
})

test('a print of a zip, as JSON', () => {
  const zip = to('prints.zip')
  writeFileSync(
    zip,
    zipOf([
      { name: 'a.gcode', bytes: readFileSync(join(prints, 'knob.gcode')) },
      { name: 'b/two.gcode', bytes: readFileSync(join(prints, 'two-tool-part.gcode')) },
    ]),
  )
  const { out, exit } = runCli([
    'pause',
    zip,
    '--member',
    'two.gcode',
    '--after-layer',
    '20',
    '--after-layer',
    '7',
    '--firmware',
    'meta',
    '--to',
    to('two.gcode'),
    '--json',
  ])
  expect(exit).toBe(0)
  const told = pausedCopyJson.parse(JSON.parse(out))
  expect(told.command).toBe('M226')
  expect(told.notes.join()).toContain('several tools')
  const copy = readFileSync(to('two.gcode'))
  expect(told.bytes).toBe(copy.length)
  expect(told.pauses.map(({ after_layer }) => after_layer)).toEqual([7, 20])
  const lines = copy.toString('latin1').split('\n')
  for (const { line, byte, text } of told.pauses) {
    expect(lines[line - 1]?.trimEnd()).toBe(text)
    expect(copy.subarray(byte, byte + text.length).toString('latin1')).toBe(text)
  }
})

test.each([
  [['--after-layer', '270', '--firmware', 'host', '--to', to('x')], 3, 'layer 1 to 269'],
  [['--after-layer', '2', '--to', to('x')], 2, '--firmware'],
  [['--after-layer', 'two', '--firmware', 'host', '--to', to('x')], 2, 'no layer'],
  [['--firmware', 'host', '--to', to('x')], 2, '--after-layer'],
  [['--after-layer', '2', '--firmware', 'host'], 2, '--to'],
  [['--after-layer', '2', '--firmware', 'host', '--to', box], 2, 'print itself'],
  [['--after-layer', '2', '--firmware', 'host', '--to', to('prints.zip')], 2, 'there already'],
  [['--after-layer', '2', '--firmware', 'host', '--to', to('no/such/x')], 4, 'can not be written'],
])('%j is refused', (words, code, said) => {
  const { err, exit } = runCli(['pause', box, ...words])
  expect(exit).toBe(code)
  expect(err.replaceAll(/\s+/g, ' ')).toContain(said)
})
