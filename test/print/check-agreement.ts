import { expect } from 'vitest'
import type { PrintReading, ReadOptions } from '../../src/print/index.ts'
import type { Outcome } from '../../src/units/index.ts'
import { asTwin, peaksByFamily } from './fast-reading.ts'
import { type TwinResult, twinRead } from './twin.ts'

/** Both readers add the same numbers in the same order; what differs is rounding. */
const tolerance = 1e-9

const near = (a: number, b: number): boolean =>
  Math.abs(a - b) <= tolerance * Math.max(1, Math.abs(a), Math.abs(b))

const nearRows = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((value, at) => near(value, b[at] ?? Number.NaN))

/** Every way in which the fast reader's outcome is not the twin's; nothing when they agree. */
export const disagreements = (fast: Outcome<PrintReading>, twin: TwinResult): readonly string[] => {
  const found: string[] = []
  const same = (what: string, got: unknown, want: unknown, holds: boolean): void => {
    if (!holds) found.push(`${what}: fast ${JSON.stringify(got)}, twin ${JSON.stringify(want)}`)
  }
  const got = asTwin(fast)
  if (!got.ok || !twin.ok) {
    const code = (result: TwinResult): string => (result.ok ? 'read' : result.code)
    same('refusal', code(got), code(twin), code(got) === code(twin))
    return found
  }

  same('lines', got.lines, twin.lines, got.lines === twin.lines)
  same(
    'heights',
    got.layers.heights,
    twin.layers.heights,
    nearRows(got.layers.heights, twin.layers.heights),
  )
  same('passes', got.layers.passes, twin.layers.passes, got.layers.passes === twin.layers.passes)

  for (const [family, { tools }] of got.byFamily) {
    const want = twin.byFamily.get(family)?.tools ?? new Map()
    const numbers = [...want.keys()]
    same(`${family} tools`, [...tools.keys()], numbers, `${[...tools.keys()]}` === `${numbers}`)
    for (const [tool, a] of tools) {
      const b = want.get(tool)
      if (!b) continue
      const label = `${family} T${tool}`
      same(`${label} net`, a.net_mm, b.net_mm, near(a.net_mm, b.net_mm))
      same(`${label} peak`, a.peak_mm, b.peak_mm, near(a.peak_mm, b.peak_mm))
      same(
        `${label} start macro`,
        a.startMacro_mm,
        b.startMacro_mm,
        near(a.startMacro_mm, b.startMacro_mm),
      )
      same(
        `${label} layer ends`,
        a.layerEnd_mm,
        b.layerEnd_mm,
        nearRows(a.layerEnd_mm, b.layerEnd_mm),
      )
    }
  }
  if (fast.ok) {
    for (const [family, peaks] of peaksByFamily(fast.value)) {
      const want = twin.byFamily.get(family)?.tools
      for (const tool of new Set([...peaks.keys(), ...(want?.keys() ?? [])])) {
        const [a, b] = [peaks.get(tool) ?? 0, want?.get(tool)?.peak_mm ?? 0]
        same(`${family} T${tool} peak, told together`, a, b, near(a, b))
      }
    }
  }

  const place = (result: typeof got): string =>
    JSON.stringify(result.stops.map(({ kind, line, layer }) => [kind, line, layer]))
  same('stops', place(got), place(twin), place(got) === place(twin))
  for (const [at, stop] of twin.stops.entries()) {
    const draws = got.stops[at]?.draw_mm
    if (!draws) continue
    for (const tool of new Set([...draws.keys(), ...stop.draw_mm.keys()])) {
      const [a, b] = [draws.get(tool) ?? 0, stop.draw_mm.get(tool) ?? 0]
      same(`stop ${at} T${tool} draw`, a, b, near(a, b))
    }
  }
  return found
}

export const checkAgreement = (
  bytes: Uint8Array,
  options: ReadOptions,
  fast: Outcome<PrintReading>,
): void => {
  const found = disagreements(fast, twinRead(bytes, options))
  if (found.length > 0) {
    const text = Buffer.from(bytes.subarray(0, 4000)).toString('latin1')
    expect.fail(`${found.slice(0, 8).join('\n')}\n${JSON.stringify(options)}\n${text}`)
  }
}
