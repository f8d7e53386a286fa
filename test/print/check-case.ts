import { expect } from 'vitest'
import type { FirmwareFamilyId } from '../../src/print/index.ts'
import { type Case, families, feedPair } from './case.ts'
import type { TwinReading } from './twin.ts'

export const close = (got: number | undefined, want: number, what: string): void => {
  expect(got, what).toBeDefined()
  expect(Math.abs(got! - want), `${what}: ${got}, not ${want}`).toBeLessThanOrEqual(
    1e-9 * Math.max(1, Math.abs(want)),
  )
}

const closeRow = (
  got: readonly number[] | undefined,
  want: readonly number[],
  what: string,
): void => {
  expect(got?.length, `${what}: ${got?.join(' ')}`).toBe(want.length)
  for (const [at, value] of want.entries()) close(got?.[at], value, `${what} ${at}`)
}

/** Families whose draw the case states. */
export const statedFamilies = ({ draw, options }: Case): readonly FirmwareFamilyId[] =>
  families.filter(
    (family) =>
      (options?.firmware ?? family) === family && (draw?.[family] ?? draw?.all) !== undefined,
  )

/** Net and peak of every tool, for the families that the reading tells apart. */
export const checkDraw = (item: Case, reading: TwinReading): void => {
  for (const family of statedFamilies(item)) {
    const tools = reading.byFamily.get(family)?.tools
    if (!tools) continue
    const want = item.draw?.[family] ?? item.draw?.all ?? {}
    expect(
      [...tools.keys()].toSorted((a, b) => a - b),
      `${family}: tools`,
    ).toEqual(
      Object.keys(want)
        .map(Number)
        .toSorted((a, b) => a - b),
    )
    for (const [tool, feed] of Object.entries(want)) {
      const [net, peak] = feedPair(feed)
      close(tools.get(Number(tool))?.peak_mm, peak, `${family} T${tool} peak`)
      close(tools.get(Number(tool))?.net_mm, net, `${family} T${tool} net`)
    }
  }
}

const checkLayers = (item: Case, reading: TwinReading): void => {
  const { heights, passes, spiral } = reading.layers
  if (item.heights) closeRow(heights, item.heights, 'heights')
  if (item.passes !== undefined) expect(passes, 'passes').toBe(item.passes)
  if (item.spiral !== undefined) expect(spiral, 'spiral').toBe(item.spiral)
  const tools = reading.byFamily.get(item.options?.firmware ?? 'community')?.tools
  for (const [tool, want] of Object.entries(item.startMacro ?? {})) {
    close(tools?.get(Number(tool))?.startMacro_mm, want, `T${tool} start macro`)
  }
  for (const [tool, want] of Object.entries(item.layerEnd ?? {})) {
    closeRow(tools?.get(Number(tool))?.layerEnd_mm, want, `T${tool} layer ends`)
  }
}

/** Hold a reading against what the case says. */
export const checkCase = (item: Case, reading: TwinReading): void => {
  checkDraw(item, reading)
  checkLayers(item, reading)
  if (item.lines !== undefined) expect(reading.lines, 'lines').toBe(item.lines)
  if (item.stops) {
    expect(
      reading.stops.map(({ kind, line, layer }) => ({ kind, line, layer })),
      'stops',
    ).toEqual(item.stops.map(({ kind, line, layer }) => ({ kind, line, layer })))
    for (const [at, { draw }] of item.stops.entries()) {
      close(reading.stops[at]?.draw_mm.get(0) ?? 0, draw, `stop ${at}: draw`)
    }
  }
  for (const code of item.must ?? []) expect([...reading.findingCodes], 'finding').toContain(code)
  for (const code of item.mustNot ?? []) {
    expect([...reading.findingCodes], 'no finding').not.toContain(code)
  }
}
