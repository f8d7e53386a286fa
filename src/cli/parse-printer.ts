import type { ToldOfPrinter } from '../service/index.ts'
import type { CheckText } from './check-text.ts'
import { parseFactor } from './parse-factor.ts'
import { parsePathLength } from './parse-fed-length.ts'

/** What is told of the printer, from what was typed. @throws Fault */
export const parsePrinter = ({
  feedFactor,
  startAllowance,
  tail,
}: Pick<CheckText, 'feedFactor' | 'startAllowance' | 'tail'>): ToldOfPrinter => ({
  ...(feedFactor !== undefined && { feed_factor: parseFactor(feedFactor, '--feed-factor') }),
  ...(startAllowance !== undefined && {
    start_allowance_mm: parsePathLength(startAllowance, '--start-allowance'),
  }),
  ...(tail !== undefined && { tail_mm: parsePathLength(tail, '--tail') }),
})
