import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import {
  type FirmwareFamilyId,
  firmwareFamilies,
  type PrintReading,
  type ReadOptions,
  readPrint,
} from '../../src/print/index.ts'

const folder = new URL('../../../shared/prints/', import.meta.url)
const here = existsSync(folder)

interface Expected {
  readonly file: string
  readonly families: {
    readonly linked: { readonly layers: number; readonly feedrate_only_time_s: number }
  }
}
const expected: readonly Expected[] = here
  ? (JSON.parse(readFileSync(new URL('expected.json', folder), 'utf8')) as Expected[])
  : []

const bytesOf = (file: string): Uint8Array => readFileSync(new URL(file, folder))

const read = (file: string, options: ReadOptions = {}): PrintReading =>
  readBytes(bytesOf(file), options)

const readBytes = (bytes: Uint8Array, options: ReadOptions): PrintReading => {
  const outcome = readPrint([bytes], options)
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  return outcome.value
}

const totalWithoutM203 = (file: string, family: FirmwareFamilyId): number => {
  const text = Buffer.from(bytesOf(file))
    .toString('latin1')
    .replaceAll(/^M203.*$/gm, '')
  return readBytes(Buffer.from(text, 'latin1'), { motion: { family } }).time!.total_s
}

const asks = ({ findings }: PrintReading): string[] =>
  findings.filter(({ severity }) => severity === 'ask').map(({ code }) => code)

describe.skipIf(!here)('real prints (skipped where the folder of prints is absent)', () => {
  test('the volumetric one can not be millimetres, and is right as mm³', () => {
    const asMillimetres = read('volumetric-retract.gcode')
    expect(asks(asMillimetres)).toEqual(['e_looks_like_mm3'])
    expect(asMillimetres.bead?.width_mm).toBeCloseTo(0.96, 1)

    const asVolume = read('volumetric-retract.gcode', { eUnit: 'mm3' })
    expect(asks(asVolume)).toEqual([])
    expect(asVolume.bead?.width_mm).toBeCloseTo(0.4, 1)
    // Cross-section of 1.75 mm filament, π/4·1.75² = 2.405281875405 mm².
    const peaks = asVolume.families[0]?.tools.map(({ peak_mm }) => peak_mm * 2.405281875405)
    expect(peaks?.[0]).toBeCloseTo(270.9605, 4)
    expect(peaks?.[1]).toBeCloseTo(286.8927, 4)
  })

  test('relative E that only a macro says is asked about, and right when it is told', () => {
    const text = Buffer.from(bytesOf('grid-relative.gcode')).toString('latin1')
    const bytes = Buffer.from(text.replaceAll(/^\s*M8[23].*$/gm, ''), 'latin1')
    const unsaid = readBytes(bytes, {})
    expect(asks(unsaid)).toContain('e_looks_relative')
    expect(unsaid.families[0]!.tools[0]!.peak_mm).toBeCloseTo(124.5, 1)
    expect(asks(readBytes(bytes, { eMode: 'absolute' }))).not.toContain('e_looks_relative')
    const told = readBytes(bytes, { eMode: 'relative' })
    expect(asks(told)).toEqual([])
    const [whole] = read('grid-relative.gcode').families
    expect(told.families[0]!.tools.map(({ peak_mm }) => peak_mm)).toEqual(
      whole!.tools.map(({ peak_mm }) => peak_mm),
    )
    for (const { file } of expected) expect(asks(read(file))).not.toContain('e_looks_relative')
  })

  test('none of the others is taken for mm³', () => {
    for (const { file } of expected) {
      if (file === 'volumetric-retract.gcode') continue
      expect(asks(read(file)), file).not.toContain('e_looks_like_mm3')
    }
  })

  test.each(expected)('$file: layers as an independent reader finds them', ({ file, families }) => {
    // That reader counts a start macro's lines at their own height as one layer more.
    const apart = families.linked.layers - read(file).layers.count
    expect([0, 1]).toContain(apart)
  })

  test.each(expected)('$file: takes longer than by its speeds alone', ({ file, families }) => {
    const bound = families.linked.feedrate_only_time_s
    for (const family of firmwareFamilies.map(({ id }) => id)) {
      const total = read(file, { motion: { family } }).time!.total_s
      // An independent reader added up lengths over speeds, printed to 0.1 s.
      expect(total, family).toBeGreaterThan(bound - 0.1)
      // Two of the files set M203 in mm/s; meta takes it for mm/min and creeps: see below.
      const asMeant = family === 'meta' ? totalWithoutM203(file, family) : total
      expect(asMeant, family).toBeLessThan(2 * bound)
    }
  })

  // Lengths over speeds, no axis faster than the file's M203 in mm/min: added up by a script of twenty
  // lines in another language, moves of the arcs' ends only.
  test.each([
    ['grid-relative.gcode', 34_125.2],
    ['arcs.gcode', 3683.9],
  ])('%s: speed limits meant in mm/s hold a meta printer to a creep', (file, bound) => {
    const total = read(file, { motion: { family: 'meta' } }).time!.total_s
    expect(total).toBeGreaterThan(bound)
    expect(total).toBeLessThan(1.01 * bound)
  })
})
