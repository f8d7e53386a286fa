import type { FactJson, PutRightJson } from '../contract/index.ts'

/** Facts that hold, and those that were put right. */
export interface StandingFacts {
  /** In the order given, `put-right` left out. */
  readonly facts: readonly FactJson[]
  /** By the id of the fact that does not hold, what says so. */
  readonly voided: ReadonlyMap<string, PutRightJson>
}

/**
 * Which facts hold. A `put-right` may itself be put right: what it voided then holds again.
 *
 * @param facts - in the order written down
 */
export const standingFacts = (facts: readonly FactJson[]): StandingFacts => {
  const voided = new Map<string, PutRightJson>()
  // A fact is put right by one written down after it: the last word is looked at first.
  for (const fact of facts.toReversed()) {
    if (fact.kind !== 'put-right' || voided.has(fact.id)) continue
    voided.set(fact.voids, fact)
  }
  return {
    facts: facts.filter((fact) => fact.kind !== 'put-right' && !voided.has(fact.id)),
    voided,
  }
}
