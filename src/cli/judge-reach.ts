import type { PictureAsked } from '../http/index.ts'
import { reelsForTools } from '../service/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import { judgeByNamed } from './check-named-reels.ts'
import { type ReelsJudged, toolsOf } from './judged.ts'
import type { Drawn } from './what-is-drawn.ts'

/**
 * How far reels of the shelf go, as `check --reel` judges it.
 *
 * @param now - ms since 1970
 * @returns refusals as `reelsForTools`
 * @throws Fault as `judgeByNamed`
 */
export const judgeReach = (
  drawn: Drawn,
  { view, reels, printer, confidence, start }: NonNullable<PictureAsked['reach']>,
  now: number,
): Outcome<ReelsJudged> => {
  const given = reelsForTools<{ readonly tool?: number; readonly reel: string }>(
    toolsOf(drawn),
    reels.map((reel) => ({ reel })),
  )
  if (!given.ok) return given
  const [[, first] = [], ...others] = given.value
  const judge = judgeByNamed(
    { view, now },
    {
      ...(first && { reel: first.reel }),
      tool: others.map(([tool, { reel }]) => `T${tool}: reel=${reel}`),
      ...(printer !== undefined && { printer }),
      ...(confidence !== undefined && { confidence: String(confidence) }),
    },
  )
  const judged = judge(drawn)
  if (judged.kind !== 'reels') throw new Error('Reels that are named are judged by themselves.')
  const { times } = judged
  return accept({ ...judged, ...(times && start !== undefined && { times: { ...times, start } }) })
}
