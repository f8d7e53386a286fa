import { useQuery, useQueryClient } from '@tanstack/react-query'
import { createContext, type ReactNode, use, useEffect, useRef, useState } from 'react'
import type { ChangeJson, SessionJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { forgetShelf } from '../offline/forget-shelf.ts'
import { beginPageAnew, hearOtherPages } from './other-pages.ts'
import { isOfLedger, sessionKey } from './query-keys.ts'

/** How the page stands with the server. */
export interface InTouch {
  /** Null before the first word from it. */
  readonly inTouch: boolean | null
  /** Null where the server has not told. */
  readonly session: SessionJson | null
  /** True while the server asks to log in first. */
  readonly isOut: boolean
  /** Where the ledger stood when it was last told, and when that was, ms since 1970. */
  readonly state: { readonly revision: number; readonly at: number } | null
  /** How often another ledger took the place of the one before. */
  readonly exchanges: number
}

const TouchContext = createContext<InTouch>({
  inTouch: null,
  session: null,
  isOut: false,
  state: null,
  exchanges: 0,
})

/** How the page stands with the server now. */
export const useTouch = (): InTouch => use(TouchContext)

/**
 * Listens to the server for the sheets in it: what they show is fetched anew whenever something was
 * written, by whomever, and nothing of one ledger is shown of another.
 */
export function TouchOf({ children }: { readonly children: ReactNode }): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const { data, isFetched } = useQuery({
    queryKey: sessionKey,
    queryFn: api.session,
    staleTime: Infinity,
  })
  const session = data ?? null
  const [inTouch, setInTouch] = useState<boolean | null>(null)
  const [state, setState] = useState<InTouch['state']>(null)
  const [exchanges, setExchanges] = useState(0)
  const isOut = session?.logged_in === false
  useEffect(
    () =>
      hearOtherPages((told) => {
        queries.setQueryData(sessionKey, told)
        if (!told.logged_in) beginPageAnew()
      }),
    [queries],
  )
  useEffect(() => {
    if (!isOut) return undefined
    // A browser that keeps nothing has nothing to forget.
    forgetShelf().catch(() => undefined)
    // What was refused meanwhile is asked anew after.
    return () => void queries.invalidateQueries({ predicate: isOfLedger })
  }, [queries, isOut])
  const mayListen = isFetched && !isOut
  /** Outlasts a log-in: the server may serve another ledger after it. */
  const last = useRef<ChangeJson | null>(null)
  useEffect(() => {
    if (!mayListen) return undefined
    let wasLost = false
    return api.follow((touch) => {
      setInTouch(touch.inTouch)
      if (!touch.inTouch) {
        wasLost = true
        // It may have ended, or ask to log in.
        void queries.invalidateQueries({ queryKey: sessionKey })
        return
      }
      const { change } = touch
      const before = last.current
      setState({ revision: change.revision, at: Date.now() })
      if (before !== null && !isSameLedger(before, change)) {
        queries.removeQueries({ predicate: isOfLedger })
        setExchanges((count) => count + 1)
      }
      if (wasLost || (before !== null && !isSame(before, change))) void queries.invalidateQueries()
      wasLost = false
      last.current = change
    })
  }, [api, queries, mayListen])
  // In a moment it is known whether there is a sheet to show; from then on what is on it stays.
  if (!isFetched) return null
  return (
    <TouchContext value={{ inTouch, session, isOut, state, exchanges }}>{children}</TouchContext>
  )
}

/** A server that began anew counts from the start. */
const isSameLedger = (one: ChangeJson, other: ChangeJson): boolean =>
  one.ledger_id === other.ledger_id && one.ledger === other.ledger

const isSame = (one: ChangeJson, other: ChangeJson): boolean =>
  isSameLedger(one, other) && one.revision === other.revision
