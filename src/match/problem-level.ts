import { type LoadAnswer, type LoadLevel, type LoadProblem, loadLevels } from './load-problem.ts'

/** A level of a problem. */
export type ProblemLevel =
  | { readonly level: 'unserved'; readonly importance: number }
  | { readonly level: 'late' | LoadLevel }

/** A level that later ones must not make worse. */
export interface FixedLevel {
  readonly level: ProblemLevel
  /** Not counting what reels left alone add. */
  readonly most: number
}

/** How far a level that is fixed may be off, for rounding. */
export const slackOfFixed = 1e-6

/** The levels of a problem, in order. */
export const problemLevels = ({
  importances,
  hasEarlier,
}: LoadProblem): readonly ProblemLevel[] => [
  ...importances.map((importance): ProblemLevel => ({ level: 'unserved', importance })),
  { level: 'late' },
  ...loadLevels
    .filter((level) => hasEarlier || level !== 'different')
    .map((level): ProblemLevel => ({ level })),
]

/** The value of an answer at a level, not counting what reels left alone add. */
export const valueAt = (
  { groups, kinds }: LoadProblem,
  { loads, served }: LoadAnswer,
  at: ProblemLevel,
): number => {
  if (at.level === 'unserved') {
    return groups.reduce((sum, { count, importance }, group) => {
      if (importance !== at.importance) return sum
      return sum + count - served[group]!.reduce((done, { copies }) => done + copies, 0)
    }, 0)
  }
  if (at.level === 'late') {
    return groups.reduce((sum, { due_h }, group) => {
      if (due_h === Infinity) return sum
      return served[group]!.reduce((late, { copies, inTime }) => late + (inTime ? 0 : copies), sum)
    }, 0)
  }
  const place = loadLevels.indexOf(at.level)
  return loads.reduce(
    (sum, { kind, load, times }) => sum + times * kinds[kind]!.cost(load)[place]!,
    0,
  )
}
