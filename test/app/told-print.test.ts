import { expect, test } from 'vitest'
import { parseLayers, showLayers } from '../../src/app/slate/parse-layers.ts'
import { changeOf, requestOf, wantedOf } from '../../src/app/slate/told-print.ts'
import {
  type WaitingRowJson,
  waitingChangeRequest,
  waitingRequest,
} from '../../src/contract/index.ts'

const print = 'a'.repeat(64)
const row: WaitingRowJson = {
  kind: 'waiting',
  id: 'K7RMY',
  changed_at: '2026-03-02T12:00:00.000Z',
  added_at: '2026-03-01T12:00:00.000Z',
  name: 'box.gcode',
  print,
  copies: 3,
  done: 1,
  tools: [{ tool: 1, material: 'petg', colours: ['tar black', 'slate'], diameter_mm: 2.85 }],
  printers: ['P3QX6'],
  due: '2026-12-24T17:00:00.000Z',
  importance: 1,
  changes: {
    most: 2,
    after_layers: [
      [12, 40],
      [77, 77],
    ],
  },
  duration_h: 4.5,
  note: 'for Tilde',
}

test.each([
  ['40', [[40, 40]]],
  [
    '12-40, 77',
    [
      [12, 40],
      [77, 77],
    ],
  ],
  [
    ' 12 – 40 ;77',
    [
      [12, 40],
      [77, 77],
    ],
  ],
] as const)('layers %j', (typed, ranges) => {
  const read = parseLayers(typed, 80)
  expect(read).toEqual({ ok: true, value: ranges })
  expect(parseLayers(showLayers(ranges), 80)).toEqual(read)
})

test.each([
  ['some', 'layers_malformed'],
  ['12-', 'layers_malformed'],
  ['0', 'layers_out_of_range'],
  ['40-12', 'layers_out_of_range'],
  ['81', 'layers_out_of_range'],
])('layers %j are refused', (typed, code) => {
  const read = parseLayers(typed, 80)
  expect(read.ok ? '' : read.refusal.code).toBe(code)
})

test('a print comes to the slate with nothing but what was told', () => {
  const plain = requestOf(wantedOf(null, [0]), print)
  expect(plain).toEqual({ print, copies: 1 })
  const thick = requestOf(wantedOf(null, [0, 1]), print, 2.85)
  expect(waitingRequest.parse(thick).tools).toEqual([
    { tool: 0, diameter_mm: 2.85 },
    { tool: 1, diameter_mm: 2.85 },
  ])
  const [tool] = wantedOf(null, [0]).tools
  const told = requestOf(
    {
      ...wantedOf(null, [0]),
      tools: [{ ...tool!, material: 'pla', colours: ' tar black ,, slate' }],
      importance: -1,
      mayChange: true,
      layers: '3-9',
    },
    print,
  )
  expect(waitingRequest.parse(told)).toEqual({
    print,
    copies: 1,
    tools: [{ tool: 0, material: 'pla', colours: ['tar black', 'slate'] }],
    importance: -1,
    changes: { after_layers: [[3, 9]] },
  })
})

test('a form that is kept as it was opened changes nothing', () => {
  const told = waitingChangeRequest.parse(changeOf(wantedOf(row, [0, 1]), row))
  for (const [key, value] of Object.entries(told)) {
    expect([key, value]).toEqual([key, row[key as keyof WaitingRowJson]])
  }
})

test('what is cleared is not wanted any more', () => {
  const wanted = wantedOf(row, [1])
  const [tool] = wanted.tools
  const cleared = {
    ...wanted,
    tools: [{ ...tool!, material: null, colours: '' }],
    printers: [],
    due: '',
    importance: 0,
    mayChange: false,
    duration_h: null,
    note: ' ',
  }
  expect(changeOf(cleared, row)).toEqual({
    copies: 3,
    // The form does not show the diameter.
    tools: [{ tool: 1, diameter_mm: 2.85 }],
    printers: null,
    due: null,
    importance: null,
    changes: null,
    duration_h: null,
    note: null,
  })
})

test('a moment is shown where the person is, and comes back as it was', () => {
  expect(wantedOf(row, [0]).due).toMatch(/^2026-12-2\d \d\d:\d\d$/)
  expect(changeOf(wantedOf(row, [0]), row).due).toBe(row.due)
})
