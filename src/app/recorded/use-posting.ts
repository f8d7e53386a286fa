import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useRef } from 'react'
import type { RecordedJson } from '../../contract/index.ts'
import { ProblemFault } from '../api/problem-fault.ts'

/** One posting of a fact: pressed again, it goes out with the id it had. */
export interface Posting<T> {
  readonly post: (told: T) => void
  readonly isBusy: boolean
  readonly failure: Error | null
  /** True where the ledger would take it with `accept`. */
  readonly isDoubted: boolean
  readonly answer: RecordedJson | null
  readonly forget: () => void
}

/** Refusals that a person may overrule. */
const doubts = new Set(['run_dry_surprising', 'drew_more_than_held', 'measure_surprising'])

/** True where the ledger would take it with `accept`. */
export const isDoubt = (error: Error | null): boolean =>
  error instanceof ProblemFault && doubts.has(error.problem.code)

/**
 * Posts facts; whatever the page shows of the ledger is asked anew once one is written down.
 *
 * @param onRecorded - told what was written down; not told of a weighing that was too surprising
 */
export function usePosting<T>(
  send: (told: T) => Promise<RecordedJson>,
  onRecorded?: (answer: RecordedJson, told: T) => void,
): Posting<T> {
  const queries = useQueryClient()
  // A second press may come before the page is drawn anew.
  const isOut = useRef(false)
  const { mutate, isPending, error, data, reset } = useMutation({
    mutationFn: send,
    onSettled: () => {
      isOut.current = false
    },
    onSuccess: (answer, told) => {
      if (!answer.recorded) return
      onRecorded?.(answer, told)
      void queries.invalidateQueries()
    },
  })
  return {
    post: (told) => {
      if (isOut.current) return
      isOut.current = true
      mutate(told)
    },
    isBusy: isPending,
    failure: error,
    isDoubted: isDoubt(error),
    answer: data ?? null,
    forget: reset,
  }
}
