import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { ledgerTables, plainCell } from '../../src/ledger/index.ts'
import { arbitraryFact, arbitraryPrint, arbitraryRow } from './arbitrary-records.ts'
import { drew, grey, opened, putRight, quayside, rows, weighed } from './bench-records.ts'

const wrong = weighed(3, 80)
const right = putRight(4, wrong.id)
const facts = [{ ...opened(1), place: '=1+1' }, weighed(2, 900), drew(2, 500), wrong, right]
const tables = ledgerTables(rows, facts, [])
const table = (name: string) => {
  const { columns, rows: cells } = tables.find((one) => one.name === name)!
  return cells.map((row) => Object.fromEntries(row.map((cell, i) => [columns[i], cell])))
}

test('there is one for each thing', () => {
  expect(tables.map(({ name }) => name)).toEqual([
    'reels',
    'facts',
    'makes',
    'printers',
    'scales',
    'people',
    'materials',
    'slate',
    'running',
    'prints',
  ])
})

test('prints that were started', () => {
  const [row] = ledgerTables(
    [
      ...rows,
      {
        kind: 'running',
        id: '94Y7AQJ6D',
        changed_at: '2026-03-02T13:30:00.000Z',
        print: 'ab'.repeat(32),
        printer: 'VP7BP',
        started_at: '2026-03-02T13:05:00.000Z',
        recorded_at: '2026-03-02T13:06:00.000Z',
        reels: [
          { tool: 0, reel: grey, ran_dry: true },
          { tool: 0, reel: 'SJNSH', after_layer: 17 },
        ],
        takes: { early_s: 1900, likely_s: 2200, late_s: 2600 },
        ended: 'failed',
      },
    ],
    facts,
    [{ id: 'ab'.repeat(32), changed_at: '', file: 'knob.gcode', bytes: 1 }],
  ).find(({ name }) => name === 'running')!.rows
  expect(row).toEqual([
    '94Y7AQJ6D',
    'knob.gcode',
    'VP7BP',
    '2026-03-02T13:05:00.000Z',
    `T0 ${grey} ran dry, T0 SJNSH after layer 17`,
    2200,
    'failed',
    '2026-03-02T13:30:00.000Z',
    '',
  ])
})

test('reels', () => {
  expect(table('reels')).toEqual([
    expect.objectContaining({
      id: grey,
      state: 'part-used',
      make: quayside.id,
      maker: 'Tessamund',
      label_net_g: 1000,
      last_gross_g: 900,
      place: "'=1+1",
      price: '',
    }),
  ])
})

test('facts, those that do not hold with what says so', () => {
  const found = table('facts')
  expect(found).toHaveLength(facts.length)
  expect(found[3]).toMatchObject({ id: wrong.id, voided_by: right.id, reading_g: 80 })
  expect(found[1]).toMatchObject({ voided_by: '', in_words: 'weighed 900 g on the kitchen scale' })
  expect(found[2]).toMatchObject({ length_mm: 500, share: 1 })
})

describe('no cell is taken for a formula', () => {
  test.each(['=1', '+1', '-1', '@a', '\ta', '\ra'])('%j', (text) => {
    expect(plainCell(text)).toBe(`'${text}`)
  })
  test.each(['a=1', ' =1', "'=1", '', '1-1'])('%j stays', (text) => {
    expect(plainCell(text)).toBe(text)
  })
  test('numbers keep their sign', () => {
    expect(plainCell(-1)).toBe(-1)
  })
  test('in any ledger, and every row has a cell for every column', () => {
    const few = { maxLength: 6 }
    fc.assert(
      fc.property(
        fc.array(arbitraryRow, few),
        fc.array(arbitraryFact, few),
        fc.array(arbitraryPrint, few),
        (some, said, prints) => {
          for (const { columns, rows: cells } of ledgerTables(some, said, prints)) {
            expect(new Set(columns).size).toBe(columns.length)
            for (const row of cells) {
              expect(row).toHaveLength(columns.length)
              const texts = row.filter((cell) => typeof cell === 'string')
              expect(texts.filter((text) => /^[=+\-@\t\r]/.test(text))).toEqual([])
            }
          }
        },
      ),
    )
  })
})
