import { existsSync, readdirSync, readFileSync } from 'node:fs'
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { demoPrints } from '../../demo/prints/index.ts'
import {
  type LayerPlan,
  type PrintReading,
  planPoints,
  type ReadOptions,
  readPrint,
} from '../../src/print/index.ts'
import { program, toBytes } from './case.ts'
import { cases } from './cases.ts'
import { randomOptions, randomProgram } from './random-program.ts'
import { silhouetteCases } from './silhouette-cases.ts'
import { twinStrokes } from './twin.ts'
import type { LaidStroke } from './twin-layers.ts'
import { pointsOf } from './twin-silhouette.ts'

const seed = 20_261_129

const read = (bytes: Uint8Array, options: ReadOptions): PrintReading | null => {
  const outcome = readPrint([bytes], options)
  return outcome.ok ? outcome.value : null
}

const planOf = (bytes: Uint8Array, layer: number, options: ReadOptions = {}): LayerPlan => {
  const plan = read(bytes, { ...options, planOf: layer })?.plan
  if (plan === undefined) throw new Error('no plan')
  return plan
}

/** Straight pieces, each with its tool. */
type Piece = readonly [tool: number, x0: number, y0: number, x1: number, y1: number]

const piecesOf = ({ ways }: LayerPlan): readonly Piece[] =>
  ways.flatMap(({ tool, points }) =>
    Array.from({ length: points.length / 2 - 1 }, (_, k): Piece => {
      const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = points.subarray(2 * k, 2 * k + 4)
      return [tool, x0, y0, x1, y1]
    }),
  )

const twinPieces = (strokes: readonly LaidStroke[], layer: number): readonly Piece[] =>
  strokes
    .filter((stroke) => stroke.layer === layer)
    .flatMap((stroke) => {
      const points = pointsOf(stroke)
      return points
        .slice(1)
        .map(({ x, y }, k): Piece => [stroke.tool, points[k]!.x, points[k]!.y, x, y])
    })

/** Every layer, or a few of many, as the twin has it. */
const checkPlans = (bytes: Uint8Array, options: ReadOptions = {}): number => {
  const count = read(bytes, options)?.layers.count ?? 0
  const strokes = twinStrokes(bytes, options)
  const step = Math.max(1, Math.floor(count / 12))
  let pieces = 0
  for (let layer = 1; layer <= count; layer += step) {
    const got = piecesOf(planOf(bytes, layer, options))
    expect(got, `layer ${layer}`).toEqual(twinPieces(strokes, layer))
    pieces += got.length
  }
  return pieces
}

const square = program(
  'M83',
  'G1 Z0.2',
  'G1 X10 Y0 E1',
  'G1 X10 Y10 E1',
  'G0 X0 Y0',
  'G1 X0 Y10 E1',
  'G1 Z0.4',
  'T1',
  'G1 X5 Y5 E1',
)

describe('a plan drawn by hand', () => {
  test('ways that go on are one; a travel, and another tool, begin a new one', () => {
    expect(planOf(toBytes(square), 1).ways).toEqual([
      { tool: 0, points: Float64Array.of(0, 0, 10, 0, 10, 10) },
      { tool: 0, points: Float64Array.of(0, 0, 0, 10) },
    ])
    expect(planOf(toBytes(square), 2)).toEqual({
      layer: 2,
      ways: [{ tool: 1, points: Float64Array.of(0, 10, 5, 5) }],
      thinned_mm: 0,
    })
  })

  test('a layer that is not there has no ways', () => {
    expect(planOf(toBytes(square), 3).ways).toEqual([])
    expect(planOf(toBytes(square), 0).ways).toEqual([])
  })

  test('what turns out to be start macro is forgotten', () => {
    const bytes = toBytes(program('M83', 'G1 Z0.3', 'G1 X99 E9', 'G28', 'G1 Z0.2', 'G1 X1 E1'))
    expect(piecesOf(planOf(bytes, 1))).toEqual([[0, 99, 0, 1, 0]])
  })
})

test('with a plan nothing else is different, and without asking there is none', () => {
  for (const { name, code, options } of cases) {
    const plain = read(toBytes(code), { ...options })
    const { plan, ...drawn } = read(toBytes(code), { ...options, planOf: 1 }) ?? {}
    expect(plain && 'plan' in plain, name).not.toBe(true)
    expect(plan === undefined, name).toBe(plain === null)
    expect(drawn, name).toEqual(plain ?? {})
  }
})

describe('as the twin', () => {
  test.each(cases)('$name', ({ code, options }) => {
    checkPlans(toBytes(code), options)
  })

  test.each(silhouetteCases)('$name', ({ code, options }) => {
    checkPlans(toBytes(code), options)
  })

  test('random programs', () => {
    let pieces = 0
    fc.assert(
      fc.property(randomProgram, randomOptions, (code, options) => {
        pieces += checkPlans(toBytes(code), options)
      }),
      { seed, numRuns: 300 },
    )
    expect(pieces).toBeGreaterThan(1000)
  })

  test.each(demoPrints)('$name', ({ write }) => {
    expect(checkPlans(new TextEncoder().encode(write()))).toBeGreaterThan(50)
  })

  const folder = new URL('../../../shared/prints/', import.meta.url)
  const prints = existsSync(folder)
    ? readdirSync(folder).filter((name) => name.endsWith('.gcode'))
    : []
  test.skipIf(prints.length === 0)('real prints (skipped where the folder is absent)', () => {
    for (const name of prints.slice(0, 4)) {
      expect(checkPlans(readFileSync(new URL(name, folder))), name).toBeGreaterThan(50)
    }
  })
})

test('cuts of the file make no difference', () => {
  const bytes = toBytes(square)
  const whole = planOf(bytes, 1)
  for (let at = 0; at <= bytes.length; at++) {
    const cut = readPrint([bytes.subarray(0, at), bytes.subarray(at)], { planOf: 1 })
    expect(cut.ok && cut.value.plan, `cut at ${at}`).toEqual(whole)
  }
})

test('a layer with more points than are kept is thinned, and its ends hold', () => {
  const turns = planPoints + 50_000
  const lines = Array.from({ length: turns }, (_, k) => {
    const angle = k / 1000
    return `G1 X${(50 + 40 * Math.cos(angle)).toFixed(3)} Y${(50 + 40 * Math.sin(angle)).toFixed(3)} E0.01`
  })
  const plan = planOf(toBytes(program('M83', 'G1 Z0.2', lines.join('\n'))), 1)
  const points = plan.ways.reduce((sum, way) => sum + way.points.length / 2, 0)
  expect(plan.thinned_mm).toBeGreaterThan(0)
  expect(points).toBeLessThanOrEqual(planPoints)
  expect(points).toBeGreaterThan(1000)
  expect([...plan.ways[0]!.points.subarray(0, 2)]).toEqual([0, 0])
  const last = plan.ways.at(-1)!.points
  const angle = (turns - 1) / 1000
  expect(last.at(-2)).toBeCloseTo(50 + 40 * Math.cos(angle), 2)
  expect(last.at(-1)).toBeCloseTo(50 + 40 * Math.sin(angle), 2)
})
