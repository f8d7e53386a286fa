import type { ToldFactJson } from '../contract/index.ts'
import type { CardFact } from '../ledger/index.ts'

/** @param what - the fact in a sentence */
export const toldFactToJson = ({ fact, voided }: CardFact, what: string): ToldFactJson => ({
  id: fact.id,
  at: fact.at,
  kind: fact.kind,
  what,
  voided: voided === undefined ? null : { by: voided.id, reason: voided.reason },
})
