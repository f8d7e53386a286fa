import { type UseMutationOptions, type UseMutationResult, useMutation } from '@tanstack/react-query'
import { useEffect, useRef } from 'react'

/**
 * A mutation that is sent once: a second press, which may come before the page is drawn anew, does
 * nothing until the answer to the first has been drawn.
 */
export function useSending<T, V = void, C = unknown>(
  options: UseMutationOptions<T, Error, V, C>,
): UseMutationResult<T, Error, V, C> {
  const result = useMutation(options)
  const isOut = useRef(false)
  const { isPending, submittedAt } = result
  useEffect(() => {
    if (!isPending) isOut.current = false
  }, [isPending, submittedAt])
  return {
    ...result,
    mutate: (...sent) => {
      if (isOut.current) return
      isOut.current = true
      result.mutate(...sent)
    },
  }
}
