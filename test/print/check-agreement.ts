import { expect } from 'vitest'
import type { PrintReading, ReadOptions, ToolReading } from '../../src/print/index.ts'
import type { Outcome } from '../../src/units/index.ts'
import { asTwin, peaksByFamily } from './fast-reading.ts'
import { type TwinResult, type TwinTool, twinRead } from './twin.ts'

/**
 * Both readers add the same numbers in the same order; what differs is rounding. The fast one counts in
 * whole picometres, 1e-9 mm: a feed that goes through a flow factor, or inches, is rounded to them.
 */
const tolerance = 1e-9
const perLine = 1e-9
type Near = (a: number, b: number) => boolean

const nearWithin =
  (lines: number): Near =>
  (a, b) =>
    Math.abs(a - b) <= tolerance * Math.max(1, Math.abs(a), Math.abs(b)) + perLine * lines

const nearRows = (a: readonly number[], b: readonly number[], near: Near): boolean =>
  a.length === b.length && a.every((value, at) => near(value, b[at] ?? Number.NaN))

const codeOf = (result: TwinResult): string => (result.ok ? 'read' : result.code)

const toolDisagreements = (
  family: string,
  fast: readonly ToolReading[],
  twin: ReadonlyMap<number, TwinTool>,
  near: Near,
): readonly string[] => {
  const found: string[] = []
  const numbers = fast.map(({ tool }) => tool).join(' ')
  const wanted = [...twin.keys()].join(' ')
  if (numbers !== wanted) found.push(`${family} tools: fast ${numbers}, twin ${wanted}`)
  for (const got of fast) {
    const want = twin.get(got.tool)
    if (!want) continue
    for (const what of ['net_mm', 'peak_mm', 'startMacro_mm'] as const) {
      if (near(got[what], want[what])) continue
      found.push(`${family} T${got.tool} ${what}: fast ${got[what]}, twin ${want[what]}`)
    }
    const rows = [...got.layerEnd_mm]
    if (!nearRows(rows, want.layerEnd_mm, near)) {
      found.push(
        `${family} T${got.tool} layerEnd_mm: fast ${rows.join(' ')}, twin ${want.layerEnd_mm.join(' ')}`,
      )
    }
  }
  return found
}

/** Every way in which the fast reader's outcome is not the twin's; nothing when they agree. */
export const disagreements = (fast: Outcome<PrintReading>, twin: TwinResult): readonly string[] => {
  const found: string[] = []
  const same = (what: string, got: unknown, want: unknown, holds: boolean): void => {
    if (!holds) found.push(`${what}: fast ${JSON.stringify(got)}, twin ${JSON.stringify(want)}`)
  }
  const got = asTwin(fast)
  if (!got.ok || !twin.ok) {
    same('refusal', codeOf(got), codeOf(twin), codeOf(got) === codeOf(twin))
    return found
  }

  const near = nearWithin(twin.lines)
  same('lines', got.lines, twin.lines, got.lines === twin.lines)
  same(
    'heights',
    got.layers.heights,
    twin.layers.heights,
    nearRows(got.layers.heights, twin.layers.heights, near),
  )
  same('passes', got.layers.passes, twin.layers.passes, got.layers.passes === twin.layers.passes)

  if (fast.ok) {
    for (const group of fast.value.families) {
      // Families told together have the same peaks; the rest is told for one of them.
      const ways = group.families.map((family) => {
        const want = twin.byFamily.get(family)?.tools ?? new Map<number, TwinTool>()
        return toolDisagreements(family, group.tools, want, near)
      })
      const isReference = group === fast.value.families[0]
      const fewest = isReference ? ways[0] : ways.toSorted((a, b) => a.length - b.length)[0]
      found.push(...(fewest ?? ['a group without a family']))
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

/** @param twin - the twin's result, where it is known */
export const checkAgreement = (
  bytes: Uint8Array,
  options: ReadOptions,
  fast: Outcome<PrintReading>,
  twin: TwinResult = twinRead(bytes, options),
): void => {
  const found = disagreements(fast, twin)
  if (found.length > 0) {
    const text = Buffer.from(bytes.subarray(0, 4000)).toString('latin1')
    expect.fail(`${found.slice(0, 8).join('\n')}\n${JSON.stringify(options)}\n${text}`)
  }
}
