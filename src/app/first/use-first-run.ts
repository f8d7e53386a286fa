import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useApi } from '../api/use-api.ts'

/** The way from an empty shelf to the first verdict. */
export interface FirstRunAtHand {
  /** Whether a person is on it. */
  readonly isOn: boolean
  /** Id of the reel that was put on the shelf on this way. */
  readonly added: string | null
  readonly add: (reel: string) => void
}

/** @param isRead - a print has been read: with a reel beside it the way is at its end */
export function useFirstRun(isRead: boolean): FirstRunAtHand {
  const api = useApi()
  const { data } = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const [added, setAdded] = useState<string | null>(null)
  const isEmpty = data?.reels.length === 0
  return { isOn: isEmpty || (added !== null && !isRead), added, add: setAdded }
}
