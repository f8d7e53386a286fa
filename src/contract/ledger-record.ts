import { z } from 'zod'
import { type CatalogueRowJson, catalogueRowJson } from './catalogue-json.ts'
import { type FactJson, factJson } from './fact-json.ts'
import { type PrintRowJson, printRowJson } from './print-row-json.ts'

/** Everything a ledger holds, one line of NDJSON each: facts, catalogue rows and prints. */
export type LedgerRecord = FactJson | CatalogueRowJson | PrintRowJson

/** Schema of `LedgerRecord`. Parsing puts the keys in the schema's order. */
export const ledgerRecord: z.ZodType<LedgerRecord> = z.discriminatedUnion('kind', [
  factJson,
  catalogueRowJson,
  printRowJson,
])

const rowKinds = new Set([
  'material',
  'make',
  'printer',
  'scale',
  'person',
  'priors',
  'waiting',
  'plan',
  'running',
])

export const isCatalogueRow = (record: LedgerRecord): record is CatalogueRowJson =>
  rowKinds.has(record.kind)

export const isPrintRow = (record: LedgerRecord): record is PrintRowJson => record.kind === 'print'

export const isFact = (record: LedgerRecord): record is FactJson =>
  !isCatalogueRow(record) && !isPrintRow(record)
