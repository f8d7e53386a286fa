// oxlint-disable no-await-in-loop -- statements of one transaction go one after another
import type { Kysely } from 'kysely'
import {
  type CatalogueRowJson,
  type FactJson,
  type References,
  referencesOf,
  whatIsMissing,
} from '../contract/index.ts'
import { type Outcome, refuse } from '../units/index.ts'
import { chunksOf } from './chunks-of.ts'
import { plainText } from './plain-text.ts'
import type { Bodied } from './record-body.ts'
import type { Tables } from './tables.ts'

/** The first reference of these facts that leads nowhere, in the order of the facts. */
export const firstUnknown = async (
  transaction: Kysely<Tables>,
  facts: readonly Bodied<FactJson>[],
): Promise<Outcome<never> | undefined> => {
  const references = facts.map(({ record }) => referencesOf(record))
  const of = (field: keyof References): string[] => [
    ...new Set(references.flatMap((one) => one[field] ?? [])),
  ]
  const known: Record<keyof References, ReadonlySet<string>> = {
    reel: await knownReels(transaction, of('reel')),
    make: await knownRows(transaction, 'make', of('make')),
    printer: await knownRows(transaction, 'printer', of('printer')),
    scale: await knownRows(transaction, 'scale', of('scale')),
    person: await knownRows(transaction, 'person', of('person')),
    print: await knownPrints(transaction, of('print')),
    voids: await knownFacts(transaction, of('voids'), facts),
    instead: await knownFacts(transaction, of('instead'), facts),
  }
  for (const [index, { record }] of facts.entries()) {
    for (const [field, id] of Object.entries(references[index]!) as [
      keyof References,
      string | undefined,
    ][]) {
      if (id === undefined || known[field].has(id)) continue
      return refuse({
        code: 'unknown_reference',
        message: `The fact ${record.id} (${record.kind}) names ${whatIsMissing[field]}: ${id}. Write that down first or in the same call; nothing of this call was written.`,
        expected: field,
        received: id,
      })
    }
  }
  return undefined
}

const knownReels = async (
  transaction: Kysely<Tables>,
  wanted: readonly string[],
): Promise<ReadonlySet<string>> => {
  const known = new Set<string>()
  for (const ids of chunksOf(wanted)) {
    const found = await transaction.selectFrom('reel').select('id').where('id', 'in', ids).execute()
    for (const { id } of found) known.add(id)
  }
  return known
}

const knownRows = async (
  transaction: Kysely<Tables>,
  kind: CatalogueRowJson['kind'],
  wanted: readonly string[],
): Promise<ReadonlySet<string>> => {
  const known = new Set<string>()
  for (const ids of chunksOf(wanted)) {
    const found = await transaction
      .selectFrom('catalogue_row')
      .select('id')
      .where('kind', '=', kind)
      .where('id', 'in', ids)
      .execute()
    for (const { id } of found) known.add(id)
  }
  return known
}

const knownPrints = async (
  transaction: Kysely<Tables>,
  wanted: readonly string[],
): Promise<ReadonlySet<string>> => {
  const known = new Set<string>()
  for (const ids of chunksOf(wanted)) {
    const byPlain = new Map(ids.map((id) => [plainText(id), id]))
    const found = await transaction
      .selectFrom('print')
      .select('id')
      .where('id', 'in', [...byPlain.keys()])
      .execute()
    for (const { id } of found) known.add(byPlain.get(id)!)
  }
  return known
}

const knownFacts = async (
  transaction: Kysely<Tables>,
  wanted: readonly string[],
  sameCall: readonly Bodied<FactJson>[],
): Promise<ReadonlySet<string>> => {
  const known = new Set(sameCall.map(({ record }) => record.id))
  for (const ids of chunksOf(wanted.filter((id) => !known.has(id)))) {
    const found = await transaction.selectFrom('fact').select('id').where('id', 'in', ids).execute()
    for (const { id } of found) known.add(id)
  }
  return known
}
