import { useQueryClient } from '@tanstack/react-query'
import type { RecordedJson } from '../../contract/index.ts'
import { ProblemFault } from '../api/problem-fault.ts'
import { useSending } from '../api/use-sending.ts'
import { WaitsHere } from '../offline/waiting-weighings.ts'

/** One posting of a fact: pressed again, it goes out with the id it had. */
export interface Posting<T> {
  readonly post: (told: T) => void
  readonly isBusy: boolean
  readonly failure: Error | null
  /** True where the ledger would take it with `accept`. */
  readonly isDoubted: boolean
  readonly answer: RecordedJson | null
  /** That it is kept in this browser until the server can be reached, in a sentence. */
  readonly waits: string | null
  /** What was posted last: whatever is answered is answered of that. */
  readonly told: T | null
  /** Posts what was posted last once more, to be taken though it surprises. */
  readonly take: () => void
  readonly forget: () => void
}

/** How a form posts. */
export interface PostingOptions<T> {
  /**
   * What the form says now. A failure, and an answer that wrote nothing down, are kept to what it said
   * when they were asked for: nobody is to overrule what was said of another figure.
   */
  readonly of?: unknown
  /** Told what was written down; not told of a weighing that was too surprising. */
  readonly onRecorded?: (answer: RecordedJson, told: T) => void
  /** Told of what came to wait in this browser. */
  readonly onWaits?: () => void
}

/** Refusals that a person may overrule. */
const doubts = new Set([
  'run_dry_surprising',
  'drew_more_than_held',
  'measure_surprising',
  'weighed_since',
])

/** Posts facts; whatever the page shows of the ledger is asked anew once one is written down. */
export function usePosting<T extends { readonly accept?: boolean }>(
  send: (told: T) => Promise<RecordedJson>,
  { of, onRecorded, onWaits }: PostingOptions<T> = {},
): Posting<T> {
  const queries = useQueryClient()
  const form = JSON.stringify(of)
  const { mutate, isPending, error, data, variables, reset } = useSending({
    mutationFn: ({ told }: { readonly told: T; readonly form: string | undefined }) => send(told),
    onError: (fault) => {
      if (fault instanceof WaitsHere) onWaits?.()
    },
    onSuccess: (answer, { told }) => {
      if (!answer.recorded) return
      onRecorded?.(answer, told)
      void queries.invalidateQueries()
    },
  })
  const post = (told: T): void => mutate({ told, form })
  const told = variables?.told ?? null
  const isOfThis = variables?.form === form
  const isKept = error instanceof WaitsHere
  return {
    post,
    isBusy: isPending,
    failure: isOfThis && !isKept ? error : null,
    isDoubted: error instanceof ProblemFault && doubts.has(error.problem.code),
    answer: isOfThis || data?.recorded === true ? (data ?? null) : null,
    waits: isKept ? error.message : null,
    told,
    take: () => {
      if (told !== null) post({ ...told, accept: true })
    },
    forget: reset,
  }
}
