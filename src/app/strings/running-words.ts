import type { RunningPlaceJson, RunningToldJson } from '../../contract/index.ts'
import { showHeight } from './show-figure.ts'
import { timeWords } from './time-words.ts'

interface Of {
  readonly layers: number
  readonly spiral: boolean
  /** Which reel it is of; null where there is only one. */
  readonly reel: string | null
}

const placeOf = (place: RunningPlaceJson | null, spiral: boolean): string | null => {
  if (place === null) return null
  const isHeight = spiral || place.layer === null
  if (!isHeight) return `layer ${place.layer}`
  return place.height_mm === null ? null : showHeight(place.height_mm)
}

/** Words of what was told of a print when it was started. */
export const runningWords = {
  /** Where and when its reel runs dry, and up to where it can be changed; nothing of one that is enough. */
  told: (
    { verdict, run_dry: dry, change_before: change }: RunningToldJson,
    { layers, spiral, reel }: Of,
    start: number,
    now: number,
  ): readonly string[] => {
    if (verdict === 'enough') return []
    const early = placeOf(dry?.early ?? null, spiral)
    const likely = placeOf(dry?.likely ?? null, spiral)
    const where = [
      ...(early === null ? [] : [`from ${early} on`]),
      ...(likely === null ? [] : [`most likely about ${likely}`]),
    ].join(', ')
    const when = timeWords.dryBetween(dry?.clock ?? null, start, now)
    const parts = [where, when ?? ''].filter((part) => part !== '').join(': ')
    const of = reel ?? 'The reel'
    const isSafe = change !== undefined && change.layer < layers
    const changes =
      change === undefined
        ? null
        : timeWords.change(
            { verdict, run_dry: { clock: dry?.clock ?? null }, change_before: change },
            { layers, spiral },
            start,
            now,
          )
    return [
      ...(parts === '' ? [] : [`${of} ${verdict === 'short' ? 'runs' : 'may run'} dry ${parts}.`]),
      ...(changes !== null
        ? [reel === null ? changes : `${reel}: ${changes}`]
        : isSafe
          ? [
              `Change ${reel ?? 'it'} ${spiral && change.height_mm !== null ? `at ${showHeight(change.height_mm)}` : `after layer ${change.layer}`} at the latest.`,
            ]
          : []),
    ]
  },
} as const
