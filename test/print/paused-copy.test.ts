import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { demoPrints } from '../../demo/prints/index.ts'
import {
  type FirmwareFamilyId,
  firmwareFamilies,
  pauseLine,
  readPrint,
} from '../../src/print/index.ts'
import { pausedCopyOf, placesOf } from './paused-copy-of.ts'

const folder = new URL('../../../shared/prints/', import.meta.url)
const here = existsSync(folder)
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)
const textOf = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1')

/** Three layers, each with a wipe and a retraction behind its last bead. */
const small = (eol = '\n'): string =>
  [
    'M82',
    'G92 E0',
    ...[0.2, 0.4, 0.6].flatMap((z, k) => [
      `G1 Z${z} F600`,
      `G1 X0 Y0 F3000`,
      `G1 E${k * 3}`,
      `G1 X10 E${k * 3 + 1}`,
      `G1 X0 E${k * 3 + 3} ; last of ${k + 1}`,
      `G1 X2 E${k * 3 + 2.5} ; wiped`,
    ]),
    'M104 S0',
  ].join(eol)

const layersOf = (count: number): readonly number[] =>
  [...new Set([1, 2, Math.ceil(count / 3), Math.ceil(count / 2), count - 1])].filter(
    (layer) => layer >= 1 && layer < count,
  )

const checkCopies = (bytes: Uint8Array): void => {
  for (const { id: firmware } of firmwareFamilies) {
    const reading = readPrint([bytes], { firmware })
    if (!reading.ok) throw new Error(reading.refusal.message)
    const layers = layersOf(reading.value.layers.count)
    if (layers.length === 0) {
      const places = placesOf(bytes, { firmware }, [1])
      expect(!places.ok && places.refusal.code).toBe('no_layers')
      continue
    }
    const made = pausedCopyOf(bytes, { firmware }, layers)
    expect(made.isSame).toBe(true)
    expect(made.isSound).toBe(true)
    expect(Buffer.compare(made.without, bytes)).toBe(0)
    expect(made.places.map(({ layer }) => layer)).toEqual(layers)
    const more = pausedStops(made.copy, firmware) - made.reading.stops.length
    expect(more).toBe(layers.length)
  }
}

const pausedStops = (copy: Uint8Array, firmware: FirmwareFamilyId): number => {
  const reading = readPrint([copy], { firmware })
  return reading.ok ? reading.value.stops.length : -1
}

describe('a copy with stops', () => {
  test('has each stop behind the last bead of its layer, before it is wiped', () => {
    const { copy } = pausedCopyOf(bytesOf(small()), { firmware: 'host' }, [2, 1])
    const stops = textOf(copy).split('\n')
    expect(stops.filter((line) => line.startsWith('PAUSE'))).toEqual([
      'PAUSE ; reelreckon: after layer 1',
      'PAUSE ; reelreckon: after layer 2',
    ])
    expect(textOf(copy)).toContain(
      '; last of 2\nPAUSE ; reelreckon: after layer 2\nG1 X2 E5.5 ; wiped',
    )
  })

  test.each(['\n', '\r\n', '\r'])('keeps the line ends of the file: %j', (eol) => {
    const { copy, isSame } = pausedCopyOf(bytesOf(small(eol)), { firmware: 'community' }, [1])
    expect(isSame).toBe(true)
    expect(textOf(copy)).toBe(
      small(eol).replace(
        `; last of 1${eol}`,
        `; last of 1${eol}M600 ; reelreckon: after layer 1${eol}`,
      ),
    )
  })

  test('is the same wherever the file is cut', () => {
    const bytes = bytesOf(small('\r\n'))
    const whole = pausedCopyOf(bytes, { firmware: 'meta' }, [1, 2])
    for (const size of [1, 2, 3, 7, 64]) {
      const cut = pausedCopyOf(bytes, { firmware: 'meta' }, [1, 2], size)
      expect(textOf(cut.copy)).toBe(textOf(whole.copy))
      expect(cut.isSound).toBe(true)
      expect(Buffer.compare(cut.without, bytes)).toBe(0)
    }
  })

  test('stands behind the last bead where E is relative, too', () => {
    const relative = `M83\n${[0.2, 0.4]
      .map((z) => `G1 Z${z}\nG1 X9 E1\nG1 X0 E2 ; last\nG1 X1 E-1\nG1 E-1`)
      .join('\n')}`
    const { copy } = pausedCopyOf(bytesOf(relative), { firmware: 'textfile' }, [1])
    expect(textOf(copy)).toContain('; last\nM600 ; reelreckon: after layer 1\nG1 X1 E-1')
  })

  test('is read with the command of its stop alone, not half of the note behind it', () => {
    const { copy } = pausedCopyOf(bytesOf(small()), { firmware: 'community' }, [2])
    const reading = readPrint([copy], { firmware: 'community' })
    expect(reading.ok && reading.value.stops.map(({ command }) => command)).toEqual(['M600'])
  })

  test('keeps of a note what every firmware takes', () => {
    const place = { layer: 7, height_mm: 1, byte: 0, line: 1, tool: 0, lineEnd: '\n' } as const
    const note = `reel K7RMY; 'tar‐black'\n${'x'.repeat(90)}`
    const line = pauseLine('host', { place, purpose: 'change', note })
    expect(line).toMatch(/^PAUSE ; reelreckon: after layer 7, reel K7RMY 'tar black' x+\n$/)
    expect(line.length).toBeLessThanOrEqual(95)
  })
})

/** Each layer is two beads. */
const layer = (z: number, indent = ''): string =>
  `${indent}G1 Z${z}\n${indent}G1 X9 E1\n${indent}G1 X0 E1\n`

const refusal = (text: string, layers: readonly number[], firmware: 'host' | 'meta' = 'host') => {
  const places = placesOf(bytesOf(text), { firmware }, layers)
  return places.ok ? null : places.refusal.code
}

describe('no copy', () => {
  test('where there is no such layer end', () => {
    expect(refusal(small(), [0])).toBe('layer_out_of_range')
    expect(refusal(small(), [3])).toBe('layer_out_of_range')
    expect(refusal(small(), [1.5])).toBe('layer_out_of_range')
    expect(refusal(small(), [])).toBe('layer_out_of_range')
    expect(refusal('G1 Z0.2\nG1 X9 E3\nG1 X0 E5\n', [1])).toBe('no_layers')
  })

  test('inside a part that the file repeats', () => {
    const looped = `M83\n${layer(0.2)}SDCARD_LOOP_BEGIN COUNT=2\n${layer(0.4)}SDCARD_LOOP_END\n${layer(0.6)}${layer(0.8)}`
    expect(refusal(looped, [1])).toBe(null)
    expect(refusal(looped, [2])).toBe('pause_in_loop')
    expect(refusal(looped, [3])).toBe(null)
    expect(refusal(looped.replace('COUNT=2', 'COUNT=1'), [2])).toBe(null)
  })

  test('inside a block of its own', () => {
    const blocked = `M83\nif true\n${layer(0.2, '  ')}${layer(0.4)}${layer(0.6)}`
    expect(refusal(blocked, [1], 'meta')).toBe('pause_in_block')
    expect(refusal(blocked, [2], 'meta')).toBe(null)
    expect(refusal(blocked, [1], 'host')).toBe(null)
  })
})

describe('differs only at the marked lines and draws the same', () => {
  test.each(demoPrints.map((print) => [print.fileName, print] as const))('%s', (_, { write }) => {
    checkCopies(bytesOf(write()))
  })

  const files = here ? readdirSync(folder).filter((name) => name.endsWith('.gcode')) : []
  test.skipIf(!here).each(files)('%s (skipped where the folder of prints is absent)', (name) => {
    checkCopies(new Uint8Array(readFileSync(new URL(name, folder))))
  })
})
