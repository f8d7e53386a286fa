import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import {
  checkJson,
  checkSymbol,
  errorJson,
  findingJson,
  matchRequest,
  measuredJson,
  readJson,
  readPrintJson,
  reelLifeJson,
  reelListJson,
  reelShowJson,
  shelfCheckJson,
} from '../../src/contract/index.ts'

const tool = {
  tool: 0,
  peak_mm: 10,
  net_mm: 9,
  start_macro_mm: 1,
  volume_mm3: null,
  nominal_mass_g: { value: 0.03, u: 0.001 },
}

const print = {
  file: 'a.gcode',
  sha256: 'a'.repeat(64),
  bytes: 3,
  container: 'plain',
  member: null,
  code_bytes: 3,
  lines: 1,
  tools: [tool],
  families: [{ families: ['host'], tools: [tool] }],
  layers: {
    count: 1,
    passes: 1,
    spiral: false,
    step_mm: 0.2,
    first_height_mm: 0.2,
    top_mm: 0.2,
  },
  stops: [],
  bead: null,
  counts: {
    moves: 1,
    extruding_moves: 1,
    arcs: 0,
    retractions: 0,
    firmware_retractions: 0,
    tool_changes: 0,
    macro_calls: 0,
  },
  time: null,
  findings: [],
}

test('one print, or a list of them', () => {
  expect(readJson.parse(print)).toEqual(print)
  const several = { prints: [print, print], errors: [] }
  expect(readJson.parse(several)).toEqual(several)
})

test.each([
  ['a key too many', { ...print, grams: 1 }],
  ['a key too few', { ...print, lines: undefined }],
  ['half a hash', { ...print, sha256: 'abc' }],
  ['an unknown container', { ...print, container: 'tar' }],
  ['a negative peak', { ...print, tools: [{ ...tool, peak_mm: -1 }] }],
  ['an endless peak', { ...print, tools: [{ ...tool, peak_mm: Infinity }] }],
])('%s is no print', (_, value) => {
  expect(readPrintJson.safeParse(value).success).toBe(false)
})

test('an uncertainty is not negative', () => {
  expect(measuredJson.safeParse({ value: -1, u: 1 }).success).toBe(true)
  expect(measuredJson.safeParse({ value: 1, u: -1 }).success).toBe(false)
})

test('a code is snake case', () => {
  const finding = { severity: 'note', line: 1, byte: 0, count: 1, message: 'x' }
  expect(findingJson.safeParse({ ...finding, code: 'lone_cr' }).success).toBe(true)
  expect(findingJson.safeParse({ ...finding, code: 'Lone CR' }).success).toBe(false)
})

/** Every key of a JSON Schema, wherever it stands. */
function* keysOf(schema: unknown): Generator<readonly [string, { type?: unknown }]> {
  if (typeof schema !== 'object' || schema === null) return
  const properties = (schema as { properties?: Record<string, { type?: unknown }> }).properties
  for (const entry of Object.entries(properties ?? {})) yield entry
  for (const part of Object.values(schema)) yield* keysOf(part)
}

const unitless = new Set(
  `after_layer value u times timed_prints share chance other_diameter enough close short draws_since confidence weight weight_on_net off settles feed_per_path
   tool tools count passes layer layers stretch stretches line lines byte bytes code_bytes
   moves extruding_moves arcs retractions firmware_retractions tool_changes macro_calls draws_since reels`.split(
    /\s+/,
  ),
)

describe.each([
  ['read', readPrintJson],
  ['check', checkJson],
  ['error', errorJson],
  ['shelf check', shelfCheckJson],
  ['reel list', reelListJson],
  ['reel show', reelShowJson],
])('%s', (_, schema) => {
  test('every number names its unit in its key, or has none', () => {
    const numbers = [...keysOf(z.toJSONSchema(schema))].filter(([, { type }]) =>
      [type].flat().some((each) => each === 'number' || each === 'integer'),
    )
    const bare = numbers
      .map(([key]) => key)
      .filter((key) => !unitless.has(key) && !/_(?:g|mm|mm2|mm3|g_per_m|min|s)$/.test(key))
    expect(bare).toEqual([])
  })
})

const running = (after_layer: number) => ({
  busy: [
    {
      printer: 'left',
      print: 'vase',
      reels: [
        { reel: 'K7RMY', ran_dry: true },
        { tool: 0, reel: 'P3QX6', after_layer },
      ],
    },
  ],
})

test('a reel of a print that runs took over after a layer from 1 on', () => {
  expect(matchRequest.parse(running(17))).toEqual(running(17))
  for (const layer of [0, -1, 1.5]) {
    expect(matchRequest.safeParse(running(layer)).success).toBe(false)
  }
})

test('a life is a line of moments with the facts marked on it', () => {
  const net_g = { value: 640, u: 9 }
  const at = '2026-03-01T18:30:00.000Z'
  const fact = `${'2'.repeat(8)}${checkSymbol('2'.repeat(8))}`
  const life = {
    reel: 'K7RM4',
    line: [{ at, net_g }],
    marks: [{ fact, at, kind: 'weighed', net_g }],
  }
  expect(reelLifeJson.parse(life)).toEqual(life)
  expect(reelLifeJson.safeParse({ ...life, line: [{ at: '1 March', net_g }] }).success).toBe(false)
})
