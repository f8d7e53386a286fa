import type { MatchJson } from '../contract/index.ts'
import { sayCount } from './say.ts'

type Told = Pick<MatchJson, 'ended' | 'proven' | 'levels'>

/** A level that is better by less is no better: copies, reels, g. */
const least = 0.5

const amounts: Readonly<Record<string, (value: number) => string>> = {
  unserved: (value) => `${sayCount(value, 'print')} not served`,
  late: (value) => `${sayCount(value, 'print')} late`,
  changes: (value) => `${sayCount(value, 'change')} in mid-print`,
  opened: (value) => `${sayCount(value, 'new reel')} opened`,
  different: (value) => `${sayCount(value, 'choice')} otherwise than planned before`,
  stubs: (value) => `${Math.round(value)} g left in stubs`,
  swaps: (value) => `${sayCount(value, 'reel')} to put on`,
}

/** How far a plan is from the best there can be: at the first level that is not proven, what it has and what the best could. */
export const planGap = ({ ended, proven, levels }: Told): string => {
  if (proven) return 'No plan is better.'
  const why =
    ended === 'cancelled'
      ? 'You ended the search'
      : ended === 'time'
        ? 'The time ended the search'
        : 'The search ended early'
  const open = levels.find(({ value, bound }) => value - bound > least)
  if (open === undefined) return `${why}; none is better by as much as a print, a reel or a gram.`
  const { level, importance, value, bound } = open
  const what = amounts[level]?.(value) ?? `${level} ${value}`
  const whose = importance === null || importance === 0 ? '' : ` (importance ${importance})`
  const best = Math.max(0, level === 'stubs' ? Math.round(bound) : Math.ceil(bound - 1e-6))
  return `${why}: ${what}${whose}; the best could have ${best}${level === 'stubs' ? ' g' : ''}.`
}
