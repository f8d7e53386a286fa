import type { FactJson, MakeFactsJson } from '../contract/index.ts'
import { byTime, describeFact, ledgerNames } from '../ledger/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { findRow, rowName } from './find-row.ts'
import type { ShelfView } from './shelf-view.ts'
import { toldFactToJson } from './told-fact-to-json.ts'

/**
 * The facts that are about a make and no reel: empty carriers weighed, and data sheets. In order of time;
 * those that do not hold marked.
 *
 * @param typed - name or id of the make
 * @returns refusals as `findRow`
 */
export const factsOfMake = (
  { rows, facts, standing }: Pick<ShelfView, 'rows' | 'facts' | 'standing'>,
  typed: string,
): Outcome<MakeFactsJson> => {
  const make = findRow(rows, 'make', typed)
  if (!make.ok) return make
  const { id } = make.value
  const names = ledgerNames(rows)
  const told = facts
    .filter(isOfMake)
    .filter((fact) => fact.make === id)
    .toSorted(byTime)
    .map((fact) => {
      const voided = standing.voided.get(fact.id)
      return toldFactToJson({ fact, ...(voided && { voided }) }, describeFact(fact, names))
    })
  return accept({ make: id, name: rowName(make.value), facts: told })
}

const isOfMake = (
  fact: FactJson,
): fact is Extract<FactJson, { readonly kind: 'data-sheet' | 'carrier-weighed' }> =>
  fact.kind === 'data-sheet' || (fact.kind === 'carrier-weighed' && fact.reel === undefined)
