import { useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import { useApi } from '../api/use-api.ts'
import { runningKey } from '../touch/query-keys.ts'
import { useTouch } from '../touch/touch.tsx'

/** Has this browser keep what a weighing needs to know where the server can not be reached. */
export function useKeeping(): void {
  const api = useApi()
  const queries = useQueryClient()
  const { inTouch, isOut } = useTouch()
  const mayAsk = inTouch === true && !isOut
  useEffect(() => {
    if (!mayAsk) return
    void queries.prefetchQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
    void queries.prefetchQuery({ queryKey: runningKey, queryFn: () => api.running() })
    void queries.prefetchQuery({ queryKey: ['rows', 'scale'], queryFn: () => api.rows('scale') })
  }, [api, queries, mayAsk])
}
