import { useQuery } from '@tanstack/react-query'
import { useDeferredValue, useMemo } from 'react'
import type { RankedReelJson } from '../../contract/index.ts'
import type { PrintToCheck } from '../api/api.ts'
import { useApi } from '../api/use-api.ts'
import { filterReels, wordsOf } from '../shelf/filter-reels.ts'

/** What is looked for among all reels that fit a print. */
export interface ReelsWanted {
  /** Each word has to occur in what a reel can be found by. */
  readonly typed: string
  readonly call: 'any' | RankedReelJson['verdict']
}

/** Whether anything is looked for. */
export const isWanted = ({ typed, call }: ReelsWanted): boolean =>
  typed.trim() !== '' || call !== 'any'

/** All reels found, by the number of the tool. */
export interface ReelsFound {
  readonly error: Error | null
  /** Null while they are fetched. */
  readonly byTool: ReadonlyMap<number, readonly RankedReelJson[]> | null
}

/**
 * Reels of the whole shelf that are looked for, best first: also those that the answer does not list.
 *
 * @param question - what sets one question of a print apart from another: part of the key of its answers
 * @param material - id of the one that is looked among; null: all
 * @returns null where nothing is looked for
 */
export function useFoundReels(
  print: PrintToCheck,
  question: readonly unknown[],
  wanted: ReelsWanted,
  material: string | null,
): ReelsFound | null {
  const api = useApi()
  const isOn = isWanted(wanted)
  // The Shelf asks the same.
  const { data, error } = useQuery({
    queryKey: ['check-shelf', ...question, 'every'],
    queryFn: () => api.checkShelf(print, { everyReel: true }),
    enabled: isOn,
  })
  const haystacks = useMemo(
    () => new Map(data?.tools.map(({ tool, reels }) => [tool, reels.map(wordsOf)])),
    [data],
  )
  const typed = useDeferredValue(wanted.typed)
  const { call } = wanted
  const byTool = useMemo(
    () =>
      data === undefined
        ? null
        : new Map(
            data.tools.map(({ tool, reels }) => [
              tool,
              filterReels(reels, haystacks.get(tool) ?? [], typed).filter(
                ({ verdict, reel }) =>
                  (call === 'any' || verdict === call) &&
                  (material === null || reel.material === material),
              ),
            ]),
          ),
    [data, haystacks, typed, call, material],
  )
  return isOn ? { error, byTool } : null
}
