import { existsSync, readFileSync } from 'node:fs'
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { FirmwareFamilyId } from '../../src/print/index.ts'
import { checkAgreement, disagreements } from './check-agreement.ts'
import { asTwin, digest, readFast } from './fast-reading.ts'
import { randomOptions, randomProgram } from './random-program.ts'
import { type TwinResult, twinRead } from './twin.ts'

const seed = 20_261_125

describe('random programs', () => {
  test('fast reader and twin agree on 400', () => {
    fc.assert(
      fc.property(randomProgram, randomOptions, (bytes, options) => {
        checkAgreement(bytes, options, readFast(bytes, options))
      }),
      { seed, numRuns: 400 },
    )
  })

  test('slices make no difference', () => {
    fc.assert(
      fc.property(
        randomProgram,
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 20 }),
        (bytes, shares) => {
          const cuts = [0, ...shares.map((share) => Math.round(share * bytes.length)), bytes.length]
          const places = cuts.toSorted((a, b) => a - b)
          const slices = places.slice(1).map((to, at) => bytes.subarray(places[at], to))
          expect(digest(readFast(bytes, {}, slices))).toBe(digest(readFast(bytes)))
        },
      ),
      { seed, numRuns: 100 },
    )
  })

  test('an LF that a slice before left behind the window ends no line', () => {
    const line = 'G1 X10.5 Y20.5 E0.05\r\n'
    const bytes = new TextEncoder().encode(`G28\r\nM83\r\n${line.repeat(10_000)}`)
    const whole = digest(readFast(bytes))
    for (let left = 100; left < 2000; left += 137) {
      // The third slice ends between CR and LF, where the second, as long lines as these, had an LF.
      const ends = [left, left - 12, left - 18].map((lines) => bytes.length - lines * line.length)
      ends[2]!--
      const slices = [...ends, bytes.length].map((end, at) =>
        bytes.subarray(ends[at - 1] ?? 0, end),
      )
      expect(digest(readFast(bytes, {}, slices))).toBe(whole)
    }
  })

  test('most programs are read, some refused, and layers, stops and families are met', () => {
    const seen = { read: 0, refused: 0, layers: 0, stops: 0, split: 0 }
    for (const bytes of fc.sample(randomProgram, { seed, numRuns: 200 })) {
      const result = twinRead(bytes)
      if (!result.ok) {
        seen.refused += 1
        continue
      }
      seen.read += 1
      if (result.layers.heights.length > 2) seen.layers += 1
      if (result.stops.length > 0) seen.stops += 1
      const totals = [...result.byFamily.values()].map(({ tools }) => tools.get(0)?.peak_mm ?? 0)
      if (new Set(totals).size > 1) seen.split += 1
    }
    expect(seen.read).toBeGreaterThan(100)
    expect(seen.refused).toBeGreaterThan(5)
    expect(seen.layers).toBeGreaterThan(30)
    expect(seen.stops).toBeGreaterThan(10)
    expect(seen.split).toBeGreaterThan(50)
  })

  test('a disagreement is seen', () => {
    const bytes = new TextEncoder().encode('M83\nG1 X5 E1\n')
    const other = new TextEncoder().encode('M83\nG1 X5 E1.00001\n')
    expect(disagreements(readFast(bytes), twinRead(bytes))).toEqual([])
    expect(disagreements(readFast(other), twinRead(bytes))).not.toEqual([])
  })
})

interface Expected {
  readonly file: string
  readonly e_unit: 'mm' | 'mm3'
  readonly families: Readonly<
    Record<
      'linked' | 'or' | 'separate',
      { readonly tools: Readonly<Record<string, { net: number; peak_with_M221: number }>> }
    >
  >
}

/** Prints that people published; they lie beside the project, not in it. */
const folder = new URL('../../../shared/prints/', import.meta.url)
const present = existsSync(new URL('expected.json', folder))
const familyOf: Readonly<Record<keyof Expected['families'], FirmwareFamilyId>> = {
  linked: 'community',
  or: 'community-1',
  separate: 'meta',
}

describe.skipIf(!present)(
  'real prints against an independent reader (skipped where the folder of prints is absent)',
  () => {
    const expected: readonly Expected[] = present
      ? JSON.parse(readFileSync(new URL('expected.json', folder), 'utf8'))
      : []
    test('there are some', () => {
      expect(expected.length).toBeGreaterThan(0)
    })

    describe.each(expected)('$file', ({ file, e_unit, families }) => {
      const bytes = (): Uint8Array => readFileSync(new URL(file, folder))
      // The stated figures are the plain sums of E, in mm³ where the file counts in mm³.
      const options = e_unit === 'mm3' ? ({ eUnit: 'mm' } as const) : {}
      // The twin is slow, and reads all families at once.
      let known: TwinResult | undefined
      const twin = (): TwinResult => (known ??= twinRead(bytes(), options))
      test.each(Object.keys(familyOf) as (keyof typeof familyOf)[])('%s', (mode) => {
        const firmware = familyOf[mode]
        const fast = asTwin(readFast(bytes(), { ...options, firmware }))
        const readings = { fast, twin: twin() }
        for (const [reader, result] of Object.entries(readings)) {
          if (!result.ok) expect.fail(`${reader} refused: ${result.code}`)
          const tools = result.byFamily.get(firmware)?.tools
          expect(tools?.size, `${reader}: tools`).toBe(Object.keys(families[mode].tools).length)
          for (const [tool, want] of Object.entries(families[mode].tools)) {
            const got = tools?.get(Number(tool))
            for (const [what, a, b] of [
              ['net', got?.net_mm, want.net],
              ['peak', got?.peak_mm, want.peak_with_M221],
            ] as const) {
              // 1e-6 relative, and the stated figures are rounded to four decimals.
              const room = Math.max(1e-6 * Math.abs(b), 5.1e-5)
              expect(
                Math.abs((a ?? Number.NaN) - b),
                `${reader} T${tool} ${what} ${a}`,
              ).toBeLessThan(room)
            }
          }
        }
      })
      test('both readers agree in all they tell', () => {
        checkAgreement(bytes(), options, readFast(bytes(), options), twin())
      })
    })
  },
)
