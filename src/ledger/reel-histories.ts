import type { FactJson, OpenedJson, PutRightJson } from '../contract/index.ts'
import type { StandingFacts } from './standing-facts.ts'

/** A fact that holds. */
export type StandingFact = Exclude<FactJson, PutRightJson>

/** What happened to one reel. */
export interface ReelHistory {
  readonly opened: OpenedJson
  /** Standing facts in order of time, `opened` first. */
  readonly facts: readonly StandingFact[]
}

/** Why a fact is not reckoned with. */
export interface LeftFact {
  /** Id of the fact, or `priors` for that row of the catalogue. */
  readonly id: string
  /** A sentence. */
  readonly why: string
}

/** Every reel with its facts, the facts of no reel, and those that hang in the air. */
export interface ReelHistories {
  readonly reels: ReadonlyMap<string, ReelHistory>
  /** In the order given. */
  readonly ofNoReel: readonly StandingFact[]
  readonly left: readonly LeftFact[]
}

/**
 * Standing facts reel by reel, in order of time. Moments are often rough: facts dated before the
 * reel was opened come right after it, in their own order. Of facts of one moment the one that was
 * written down first comes first. Of two standing `opened` of one reel the first written down holds.
 */
export const reelHistories = ({ facts }: StandingFacts): ReelHistories => {
  const opened = new Map<string, OpenedJson>()
  const left: LeftFact[] = []
  for (const fact of facts) {
    if (fact.kind !== 'opened') continue
    if (opened.has(fact.reel)) left.push({ id: fact.id, why: 'This reel was opened already.' })
    else opened.set(fact.reel, fact)
  }
  const others = new Map<string, StandingFact[]>()
  const ofNoReel: StandingFact[] = []
  for (const fact of facts) {
    const reel = reelOfFact(fact)
    if (fact.kind === 'opened') continue
    if (reel === undefined) ofNoReel.push(fact)
    else if (fact.kind === 'carrier-weighed' && !opened.has(reel)) {
      // It still tells of the carriers of its make.
      const { reel: _reel, ...ofMake } = fact
      ofNoReel.push(ofMake)
    } else if (!opened.has(reel)) {
      left.push({ id: fact.id, why: 'Its reel was never opened, or its opening was put right.' })
    } else if (others.has(reel)) others.get(reel)!.push(fact)
    else others.set(reel, [fact])
  }
  const reels = new Map<string, ReelHistory>()
  for (const [reel, first] of opened) {
    const rest = (others.get(reel) ?? []).toSorted(byTime)
    reels.set(reel, { opened: first, facts: [first, ...rest] })
  }
  return { reels, ofNoReel, left }
}

/** Id of the reel a fact speaks of. */
export const reelOfFact = (fact: FactJson): string | undefined =>
  'reel' in fact ? fact.reel : undefined

/** Order of time; moments are text of one shape. */
export const byTime = (a: FactJson, b: FactJson): number => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0)
