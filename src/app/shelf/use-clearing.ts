import { useQuery } from '@tanstack/react-query'
import { useMemo } from 'react'
import type { RankedReelJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { isLeftOpen, printToCheck } from '../check/print-to-check.ts'
import { chanceRanked } from '../check/told-chance.ts'
import type { ReadingAtHand } from '../check/use-reading.ts'
import { usePrinter } from '../running/use-printer.ts'

/** What a reel of the shelf is for the print at hand. */
export interface Clearing extends Pick<RankedReelJson, 'verdict'> {
  /** Null where none is to be told. */
  readonly chance: number | null
}

/** The print at hand against every reel. */
export interface PrintAtHand {
  /** Name of its file. */
  readonly name: string
  /** By the id of the reel: its best tool. Absent while it is reckoned, and of reels that can not be judged. */
  readonly reels: ReadonlyMap<string, Clearing>
}

/** Null where no print was read. */
export function useClearing({ reading }: ReadingAtHand): PrintAtHand | null {
  const api = useApi()
  const at = reading.kind === 'read' ? reading : null
  const printerAt = usePrinter(at?.file.prints[at.member]?.reading ?? null)
  const print = at === null ? null : printToCheck(at, printerAt)
  const { data } = useQuery({
    queryKey: [
      'check-shelf',
      print?.sha256,
      print?.member,
      print?.printer,
      print?.firmware,
      at?.file.answers,
      'every',
    ],
    queryFn: () =>
      print === null ? Promise.reject(new Error()) : api.checkShelf(print, { everyReel: true }),
    enabled: print !== null && !isLeftOpen(print.reading) && printerAt.isKnown,
  })
  const reels = useMemo(() => {
    const best = new Map<string, RankedReelJson>()
    for (const { reels: ranked } of data?.tools ?? []) {
      for (const one of ranked) {
        if (one.chance >= (best.get(one.reel.id)?.chance ?? 0)) best.set(one.reel.id, one)
      }
    }
    return new Map(
      Array.from(best, ([id, one]): readonly [string, Clearing] => [
        id,
        { verdict: one.verdict, chance: chanceRanked(one) },
      ]),
    )
  }, [data])
  return print === null ? null : { name: print.name, reels }
}
