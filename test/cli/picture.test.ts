import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { zipOf } from '../zip-of.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const folder = folderOfPrints()
const at = (name: string): string => join(folder, name)
writeFileSync(
  at('two.zip'),
  zipOf([
    { name: 'a.gcode', bytes: readFileSync(at('knob.gcode')) },
    { name: 'b.gcode', bytes: readFileSync(at('hinge-pin.gcode')) },
  ]),
)

const run = (...words: readonly string[]): ReturnType<typeof runCli> =>
  runCli(words, { cwd: folder })
const textOf = (name: string): string => readFileSync(at(name), 'utf8')
/** Width and height, as the header of a PNG has them. */
const sizeOf = (name: string): readonly [number, number] => {
  const bytes = readFileSync(at(name))
  expect(bytes.subarray(1, 4).toString()).toBe('PNG')
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)]
}
const close = '--gross 422g --label 1kg --material PLA --tare-of-make 281g --density 1.24'.split(
  ' ',
)

describe('read', () => {
  test('from the side, and the sheet says where', () => {
    const { exit, out, err } = run('read', 'knob.gcode', '--picture', 'knob.svg')
    expect([exit, err]).toEqual([0, ''])
    expect(out).toContain('Drawn in knob.svg.')
    expect(textOf('knob.svg')).toContain('knob.gcode from the side, 35.5 mm wide and 12 mm high.')
    expect(textOf('knob.svg')).not.toContain('class="band"')
  })

  test('how high it is to the layer, and its name without the way to it', () => {
    // Two layers of 0.18 mm: the grid of the side view is coarser than their sum.
    writeFileSync(
      at('low.gcode'),
      'G90\nM83\nG1 Z0.2 F600\nG1 X60 E3 F1800\nG1 Z0.38\nG1 X0 E3\nG1 Z0.56\nG1 X60 E3\n',
    )
    expect(run('read', at('low.gcode'), '--picture', 'low.svg').exit).toBe(0)
    const svg = textOf('low.svg')
    expect(svg).toMatch(/>low\.gcode from the side, [\d.]+ mm wide and 0\.56 mm high\./)
    expect(svg).toContain('>0.56<')
    expect(svg).not.toContain(folder)
  })

  test('a layer from above', () => {
    expect(run('read', 'knob.gcode', '--picture', 'layer.svg', '--layer', '5').exit).toBe(0)
    const svg = textOf('layer.svg')
    expect(svg).toMatch(
      /What is laid down in knob\.gcode · layer 5 of 60, z 1 mm, done after about 1[45] min, seen from above\./,
    )
    expect(svg.match(/class="bead"/g)!.length).toBeGreaterThan(5)
  })

  test('PNG, and small', () => {
    expect(run('read', 'two-tool-part.gcode', '--picture', 'two.png', '--layer', '9').exit).toBe(0)
    const [width, height] = sizeOf('two.png')
    expect(width).toBeGreaterThan(800)
    expect(height).toBeGreaterThan(300)
    expect(readFileSync(at('two.png')).length).toBeLessThan(200_000)
  })

  test('the JSON is as without it', () => {
    const plain = run('read', 'knob.gcode', '--json').out
    expect(run('read', 'knob.gcode', '--json', '--picture', 'other.svg').out).toBe(plain)
  })

  test('of a zip with several, the one that is named', () => {
    const { exit, out } = run('read', 'two.zip', '--member', 'b.gcode', '--picture', 'pin.svg')
    expect(exit).toBe(0)
    expect(out).toContain('two.zip, b.gcode')
    expect(out).not.toContain('a.gcode')
    expect(textOf('pin.svg')).toContain('two.zip, b.gcode')
    expect(run('read', 'two.zip', '--picture', 'no.svg').err).toContain(
      '--member: The zip has several prints: say which is meant.',
    )
    expect(existsSync(at('no.svg'))).toBe(false)
  })
})

describe('check', () => {
  test('where a reel runs dry, and the last safe change', () => {
    expect(run('check', 'tackle-box.gcode', ...close, '--picture', 'box.svg').exit).toBe(10)
    const svg = textOf('box.svg')
    expect(svg).toContain('tackle-box.gcode · close')
    expect(svg).toMatch(/dry at \d+(?:\.\d)? mm/)
    expect(svg).toMatch(/change by \d+(?:\.\d)? mm/)
    expect(svg).toContain('class="band"')
  })

  test('one that is enough is filled to its top, with nothing on it', () => {
    expect(
      run('check', 'knob.gcode', '--net', '400g', '--picture', 'enough.svg', '--material', 'PLA')
        .exit,
    ).toBe(0)
    const svg = textOf('enough.svg')
    expect(svg).toContain('knob.gcode · enough')
    expect(svg).not.toMatch(/class="(?:band|change|dashed)"/)
  })

  test('in the colour of a reel of the shelf', () => {
    const words = ['--reel', 'QX5BN', '--ledger', 'marrowick.ndjson', '--picture', 'reel.svg']
    expect(run('check', 'knob.gcode', ...words).exit).toBe(0)
    expect(textOf('reel.svg')).toMatch(/class="filament"[^>]*style="fill:#[0-9a-f]{6}"/)
  })
})

test('a file that is there stays as it is, unless it is asked otherwise', () => {
  writeFileSync(at('mine.svg'), 'mine')
  const { exit, err } = run('read', 'knob.gcode', '--picture', 'mine.svg')
  expect(exit).toBe(2)
  expect(err).toContain('mine.svg is there already')
  expect(textOf('mine.svg')).toBe('mine')
  expect(run('read', 'knob.gcode', '--picture', 'mine.svg', '--overwrite').exit).toBe(0)
  expect(textOf('mine.svg')).toContain('<svg')
})

describe('wrong usage', () => {
  test.each([
    [['read', 'knob.gcode', '--picture', 'knob.jpg'], 2, 'neither .svg nor .png'],
    [['read', 'knob.gcode', '--layer', '5'], 2, 'say where with --picture'],
    [['read', 'knob.gcode', '--picture', 'x.svg', '--layer', 'top'], 2, 'is no layer'],
    [
      ['read', 'knob.gcode', '--picture', 'x.svg', '--layer', '61'],
      2,
      'has 60 layers, and no layer 61',
    ],
    [['read', 'knob.gcode', 'vase.gcode', '--picture', 'x.svg'], 2, 'is for one print'],
    [
      ['check', 'knob.gcode', '--ledger', 'marrowick.ndjson', '--picture', 'x.svg'],
      2,
      'name it with --reel',
    ],
    [
      ['check', '--draw', '6m', '--net', '40g', '--picture', 'x.svg'],
      2,
      '--picture is about a file',
    ],
    [['read', 'knob.gcode', '--picture', 'nowhere/x.svg'], 4, 'can not be written'],
  ] as const)('%j', (words, exit, says) => {
    const found = run(...words)
    expect(found.exit).toBe(exit)
    expect(found.err.replaceAll(/\s+/g, ' ')).toContain(says)
    expect(existsSync(at('x.svg'))).toBe(false)
  })
})
