import type { MatchEngine } from '../service/index.ts'
import { matchInThread } from '../solver/index.ts'

/** A match as the commands and the server run it. */
export const runMatch: MatchEngine = (slate, { progress, ...run }) =>
  matchInThread(slate, {
    ...run,
    ...(progress && { progress: ({ done }) => progress(done) }),
  })
