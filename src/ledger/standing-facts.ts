import type { FactJson, PutRightJson } from '../contract/index.ts'

/** Facts that hold, and those that were put right. */
export interface StandingFacts {
  /** In the order given, `put-right` left out. */
  readonly facts: readonly Exclude<FactJson, PutRightJson>[]
  /** By the id of the fact that does not hold, what says so. */
  readonly voided: ReadonlyMap<string, PutRightJson>
}

/**
 * Which facts hold. A `put-right` may itself be put right: what it voided then holds again, and the
 * fact that was written down together with it to stand instead falls with it, or a draw put right
 * and back would count twice. The order of the facts makes no difference, unless two `put-right`
 * void each other: the one that stands last then holds.
 *
 * @param facts - in the order written down
 */
export const standingFacts = (facts: readonly FactJson[]): StandingFacts => {
  const byVoided = new Map<string, PutRightJson[]>()
  const byInstead = new Map<string, PutRightJson[]>()
  for (const fact of facts) {
    if (fact.kind !== 'put-right') continue
    append(byVoided, fact.voids, fact)
    if (fact.instead !== undefined) append(byInstead, fact.instead, fact)
  }
  if (byVoided.size === 0) return { facts: facts.filter(isNoPutRight), voided: new Map() }

  /** What voids a fact, or null where it holds. */
  const voiders = new Map<string, PutRightJson | null>()
  const voiderOf = (fact: FactJson): PutRightJson | null => {
    const known = voiders.get(fact.id)
    if (known !== undefined) return known
    // Asked for again while it is looked into, a fact counts as holding: circles end here.
    voiders.set(fact.id, null)
    const voider = findVoider(fact)
    voiders.set(fact.id, voider)
    return voider
  }
  const findVoider = (fact: FactJson): PutRightJson | null => {
    const direct = byVoided.get(fact.id)?.find((one) => voiderOf(one) === null)
    if (direct !== undefined) return direct
    const openers = byInstead
      .get(fact.id)
      ?.filter(({ recorded_at }) => recorded_at === fact.recorded_at)
    if (openers === undefined || openers.length === 0) return null
    const fallen = openers.map(voiderOf)
    return fallen.every((voider) => voider !== null) ? fallen.at(-1)! : null
  }

  for (const fact of facts.toReversed()) voiderOf(fact)
  const voided = new Map<string, PutRightJson>()
  for (const [id, voider] of voiders) if (voider !== null) voided.set(id, voider)
  return {
    facts: facts.filter(isNoPutRight).filter(({ id }) => !voided.has(id)),
    voided,
  }
}

const isNoPutRight = (fact: FactJson): fact is Exclude<FactJson, PutRightJson> =>
  fact.kind !== 'put-right'

const append = <K, V>(lists: Map<K, V[]>, key: K, value: V): void => {
  const list = lists.get(key)
  if (list === undefined) lists.set(key, [value])
  else list.push(value)
}
