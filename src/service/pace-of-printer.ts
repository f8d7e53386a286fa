import { learnPace, type Pace, type TimedRun } from '../estimate/index.ts'
import type { ShelfView } from './shelf-view.ts'

type Standing = ShelfView['standing']

/** Facts that hold do not change: what they teach is worked out once. */
const learnt = new WeakMap<Standing, Map<string | undefined, Pace>>()

/** How a printer keeps to the plan, learnt from its finished prints whose duration was told. */
export const paceOfPrinter = (
  { standing }: Pick<ShelfView, 'standing'>,
  printer: string | undefined,
): Pace => {
  const paces = learnt.get(standing) ?? new Map<string | undefined, Pace>()
  learnt.set(standing, paces)
  const pace = paces.get(printer) ?? learnPace(runsOf(standing, printer))
  paces.set(printer, pace)
  return pace
}

const runsOf = ({ facts }: Standing, printer: string | undefined): readonly TimedRun[] => {
  const runs: TimedRun[] = []
  for (const fact of facts) {
    if (fact.kind !== 'drew' || fact.printer !== printer || fact.timed === undefined) continue
    const { took_s, planned_s, waits } = fact.timed
    runs.push({
      took_s,
      planned_s,
      waits: Object.entries(waits).map(([kind, times]) => ({ kind, times })),
    })
  }
  return runs
}
