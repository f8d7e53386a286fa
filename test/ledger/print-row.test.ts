import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { demoPrints } from '../../demo/prints/index.ts'
import {
  ledgerHeader,
  ledgerLine,
  printRowOf,
  readingOfRow,
  readLedger,
} from '../../src/ledger/index.ts'
import { type PrintReading, readPrint } from '../../src/print/index.ts'
import { arbitraryPrint } from './arbitrary-records.ts'
import { noon } from './bench-records.ts'

const head = { id: 'a'.repeat(64), file: 'a.gcode', bytes: 3, changed_at: noon(1) }

const readingOf = (text: string): PrintReading => {
  const outcome = readPrint([new TextEncoder().encode(text)])
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  return outcome.value
}

describe.each(demoPrints)('$name', ({ draw }) => {
  const { families, layers } = readingOf(draw().text())
  const row = printRowOf({ families, layers }, head)

  test('comes back through a line, every number bit by bit', () => {
    const read = readLedger([ledgerHeader(0), ledgerLine(row)])
    expect(read).toEqual({ ok: true, value: [row] })
    // Typed arrays are compared kind by kind and bit by bit.
    expect(readingOfRow(row)).toStrictEqual({ families, layers })
  })
})

test('any row is what its reading gives again', () => {
  fc.assert(
    fc.property(arbitraryPrint, (row) => {
      const { id, file, bytes, changed_at } = row
      expect(printRowOf(readingOfRow(row), { id, file, bytes, changed_at })).toEqual(row)
    }),
  )
})

test('what JSON can not write does not get into a row', () => {
  const { families, layers } = readingOf('M83\nG1 Z0.2\nG1 X10 E5\n')
  const group = families[0]!
  const tool = { ...group.tools[0]!, net_mm: -0, layerEnd_mm: Float64Array.of(-0, 5) }
  const row = printRowOf({ families: [{ ...group, tools: [tool] }], layers }, head)
  expect(Object.is(row.families[0]?.tools[0]?.net_mm, 0)).toBe(true)
  expect(JSON.parse(ledgerLine(row))).toStrictEqual(row)
})
