import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { ledgerPage, ofRows } from '../../scripts/ledger-docs.ts'
import { type FactJson, isCatalogueRow, isFact, isPrintRow } from '../../src/contract/index.ts'
import { estimateShelf, shelfNets } from '../../src/estimate/index.ts'
import {
  checkNewFact,
  ledgerLine,
  readingOfRow,
  readLedger,
  reelCards,
  shareFed,
  shelfOf,
} from '../../src/ledger/index.ts'

const docs = (name: string): string =>
  readFileSync(new URL(`../../docs/${name}`, import.meta.url), 'utf8')

test('ledger-format.md is as the schemas have it', () => {
  expect(docs('ledger-format.md')).toBe(ledgerPage())
})

describe('the ledger of the harbour bench', () => {
  const lines = docs('harbour-bench.ndjson').trimEnd().split('\n')
  const read = readLedger(lines)
  const records = read.ok ? read.value : []
  const rows = records.filter(isCatalogueRow)
  const facts = records.filter(isFact)

  test('every line is read, and written again as it was', () => {
    expect(read).toMatchObject({ ok: true })
    expect(records.map(ledgerLine)).toEqual(lines.slice(1))
  })

  test('has every kind of record', () => {
    const kinds = [...ledgerPage().matchAll(/^### ([\w-]+)$/gm)].map(([, kind]) => kind)
    const here = new Set<string>(records.map(({ kind }) => kind))
    expect(kinds.filter((kind) => !here.has(kind!))).toEqual(ofRows)
    expect(kinds).toHaveLength(here.size + ofRows.length)
  })

  test('no fact of it would be refused when it is written down', () => {
    const refused = facts.flatMap((fact, i) => {
      const alike = (other: FactJson): boolean => other.recorded_at === fact.recorded_at
      const checked = checkNewFact(fact, rows, facts.slice(0, i), facts.slice(i + 1).filter(alike))
      return checked.ok ? [] : [checked.refusal.message]
    })
    expect(refused).toEqual([])
  })

  test('the estimate takes all of it', () => {
    const { catalogue, facts: taken, priors, left } = shelfOf(rows, facts)
    expect(left).toEqual([])
    expect(catalogue.reels).toHaveLength(reelCards(rows, facts).length)
    const { value, u } = shelfNets(estimateShelf(catalogue, taken, { priors }))
    // The grey reel was weighed when new and later, and its carrier's make is known by another's.
    const grey = catalogue.reels.findIndex(
      ({ id }) => id === reelCards(rows, facts).find(({ lot }) => lot === 'Q-0417')?.id,
    )
    expect(u[grey]).toBeLessThan(10)
    expect(Math.abs(value[grey]! - (929 - 12 - 168))).toBeLessThan(20)
    expect([...value].every(Number.isFinite)).toBe(true)
  })

  test('the share that was fed of its print is that of the layer where it stopped', () => {
    const row = records.find(isPrintRow)
    const drew = facts.find((fact) => fact.kind === 'drew' && fact.print === row?.id)
    const { families, layers } = readingOfRow(row!)
    expect(drew).toMatchObject({ stopped_at: { layer: 3 } })
    expect(shareFed(families[0]!.tools[0]!, layers, { layer: 3 })).toMatchObject({
      value: drew?.kind === 'drew' ? drew.share : undefined,
    })
  })
})
