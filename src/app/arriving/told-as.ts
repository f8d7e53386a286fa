import type { ReelRequest, WeighingTellJson } from '../../contract/index.ts'

/** What a reel was when it came. */
export type ReelState = 'used' | 'new'

/**
 * What a reel that arrives was, and what the scale showed with it: of a new one that is what it weighs
 * when new, of a part-used one what it weighs now.
 */
export const toldAs = (
  state: ReelState,
  weighing: WeighingTellJson | null,
): Pick<ReelRequest, 'part_used' | 'gross' | 'gross_when_new'> =>
  state === 'used'
    ? { part_used: true, ...(weighing !== null && { gross: weighing }) }
    : weighing === null
      ? {}
      : { gross_when_new: weighing }
