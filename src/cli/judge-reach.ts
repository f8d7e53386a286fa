import type { PictureAsked } from '../http/index.ts'
import { findForReels, type ReelsChecked } from '../service/index.ts'
import type { Outcome } from '../units/index.ts'
import { type Drawn, doubtOfFile } from './what-is-drawn.ts'

/**
 * How far reels go, as a check of them judges it.
 *
 * @param now - ms since 1970
 * @returns refusals as `findForReels`
 */
export const judgeReach = (
  drawn: Drawn,
  { view, reels, printer, told, confidence, start }: NonNullable<PictureAsked['reach']>,
  now: number,
): Outcome<ReelsChecked> => {
  const { tools, layers, time } = drawn
  return findForReels(
    view,
    { now: () => now },
    {
      reels,
      ...(printer !== undefined && { printer }),
      ...(told && { told }),
      ...(confidence !== undefined && { confidence }),
      ...(start !== undefined && { start }),
      drawn: { tools, prints: 1, ...(layers && { layers }), ...(time && { time }) },
      cutShort: doubtOfFile(drawn) !== undefined,
    },
  )
}
