import type { MatchRequest } from '../../contract/index.ts'

type Lock = NonNullable<MatchRequest['locks']>[number]
type Bar = NonNullable<MatchRequest['forbidden']>[number]
type NewReel = NonNullable<MatchRequest['new_reels']>[number]

/** What a person wishes of the match, beside the slate as it is. */
export interface AskedMatch {
  readonly confidence: number
  readonly locks: readonly Lock[]
  readonly forbidden: readonly Bar[]
  readonly newReels: readonly NewReel[]
  /** Ids of waiting prints. */
  readonly dropped: readonly string[]
}

/** The slate as it is. */
export const asItIs: AskedMatch = {
  confidence: 0.95,
  locks: [],
  forbidden: [],
  newReels: [],
  dropped: [],
}

/** The request that says so; the server knows what runs. */
export const requestOfAsked = ({
  confidence,
  locks,
  forbidden,
  newReels,
  dropped,
}: AskedMatch): MatchRequest => ({
  confidence,
  ...(locks.length > 0 && { locks }),
  ...(forbidden.length > 0 && { forbidden }),
  ...(newReels.length > 0 && { new_reels: newReels }),
  ...(dropped.length > 0 && { dropped }),
})

const isSameTask = (one: Lock, other: Omit<Lock, 'reel'>): boolean =>
  one.waiting === other.waiting && one.copy === other.copy && one.tool === other.tool

/** With the reels of a tool of a copy, one or a chain; those wished before for the same give way. */
export const withLock = (
  asked: AskedMatch,
  task: Omit<Lock, 'reel'>,
  reels: readonly string[],
): AskedMatch => ({
  ...asked,
  locks: [
    ...asked.locks.filter((one) => !isSameTask(one, task)),
    ...reels.map((reel) => ({ ...task, reel })),
  ],
  forbidden: asked.forbidden.filter(
    ({ reel, waiting }) => !reels.includes(reel) || waiting !== task.waiting,
  ),
})

/** Without a reel for a print; where it was wished for, it is not any more. */
export const withBar = (asked: AskedMatch, bar: Bar): AskedMatch => ({
  ...asked,
  locks: asked.locks.filter(
    ({ reel, waiting }) => reel !== bar.reel || (bar.waiting ?? waiting) !== waiting,
  ),
  forbidden: [
    ...asked.forbidden.filter(({ reel, waiting }) => reel !== bar.reel || waiting !== bar.waiting),
    bar,
  ],
})

/** Without a print. */
export const withoutPrint = (asked: AskedMatch, waiting: string): AskedMatch => ({
  ...asked,
  dropped: [...asked.dropped.filter((one) => one !== waiting), waiting],
})
