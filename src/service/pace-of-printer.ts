import { learnPace, type Pace, type TimedRun } from '../estimate/index.ts'
import type { ShelfView } from './shelf-view.ts'

/** How a printer keeps to the plan, learnt from its finished prints whose duration was told. */
export const paceOfPrinter = (
  { standing }: Pick<ShelfView, 'standing'>,
  printer: string | undefined,
): Pace => {
  const runs: TimedRun[] = []
  for (const fact of standing.facts) {
    if (fact.kind !== 'drew' || fact.printer !== printer || fact.timed === undefined) continue
    const { took_s, planned_s, waits } = fact.timed
    runs.push({
      took_s,
      planned_s,
      waits: Object.entries(waits).map(([kind, times]) => ({ kind, times })),
    })
  }
  return learnPace(runs)
}
